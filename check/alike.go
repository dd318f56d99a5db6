package check

import (
	"reflect"
	"slices"

	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// likeness is how much of one text is said by another. Binding and solving are
// functions of what is said, so what is alike is bound and solved alike.
type likeness uint8

const (
	other  likeness = iota
	worded          // all that has a say in what flows: names of wires and modes, texts and promises may differ
	same            // all that a rule reads, and every place is found again
)

// unread are the settings whose texts no rule reads.
var unread = map[string]bool{"title": true, "part": true}

// comparer lowers likeness by what it finds.
type comparer struct {
	like     likeness
	mover    *mover // nil where places do not matter
	was, now *source.File
}

// compare says how alike two root files are. A rule that adds a setting looks for
// the brace of the declaration's block in the text, so braces that come and go
// count as a difference, wherever they stand.
func (m *mover) compare(was, now *syntax.File) likeness {
	c := comparer{like: same, mover: m, was: was.Source, now: now.Source}
	if m.braces {
		c.like = worded
	}
	before, promised := parted(was)
	after, promises := parted(now)
	c.lists(before, after)
	if c.like == same {
		p := comparer{like: same, mover: m, was: was.Source, now: now.Source}
		if p.lists(promised, promises); p.like != same {
			c.like = worded
		}
	}
	return c.like
}

// parted are a file's declarations, promises apart.
func parted(f *syntax.File) (list, promises []syntax.Decl) {
	for _, d := range f.Decls {
		if isPromise(d) {
			promises = append(promises, d)
		} else {
			list = append(list, d)
		}
	}
	return list, promises
}

func isPromise(d syntax.Decl) bool {
	switch d.(type) {
	case *syntax.Require, *syntax.Allow:
		return !d.Header().Broken
	}
	return false
}

// isNew reports a wire or device that is plainly none of the machine's own. One
// that is of a part may have it from there.
func isNew(d syntax.Decl) bool {
	h := d.Header()
	if h.Broken || h.Block.First("existing") != nil {
		return false
	}
	switch d := d.(type) {
	case *syntax.Wire:
		return true
	case *syntax.Device:
		kind := kinds.Find(kinds.Family(h.Keyword.Text), d.Kind.Text)
		return kind != nil && (kind.Family != kinds.Ground || kind.Name != "chassis")
	}
	return false
}

func (c *comparer) lower(to likeness) { c.like = min(c.like, to) }

func (c *comparer) lists(was, now []syntax.Decl) {
	if len(was) != len(now) {
		c.lower(other)
		return
	}
	for i := range was {
		if was[i] != now[i] { // else one tree has it from the other, unmoved
			c.decl(was[i], now[i])
		}
	}
}

// decl compares two declarations.
func (c *comparer) decl(a, b syntax.Decl) {
	x, y := a.Header(), b.Header()
	c.equal(reflect.TypeOf(a) == reflect.TypeOf(b))
	c.span(x.Span, y.Span)
	c.name(x.Keyword, y.Keyword, other)
	c.name(x.Name, y.Name, nameable(a))
	c.equal(x.Broken == y.Broken)
	c.block(x.Block, y.Block)
	if x.Broken || y.Broken {
		c.written(x.Span, y.Span)
	}
	c.names(namesOf(a), namesOf(b))
	c.values(valuesOf(a), valuesOf(b), "")
}

// nameable is what a change of a declaration's own name comes to. What others
// refer to by name may be another thing then.
func nameable(d syntax.Decl) likeness {
	switch d.(type) {
	case *syntax.Wire, *syntax.Mode, *syntax.Harness:
		return worded
	}
	return other
}

// namesOf are the names in a declaration's header, its own left out.
func namesOf(d syntax.Decl) []syntax.Name {
	switch d := d.(type) {
	case *syntax.Places:
		return append(slices.Clone(d.Names), d.Zone)
	case *syntax.Bundle:
		return []syntax.Name{d.From, d.To}
	case *syntax.Device:
		return []syntax.Name{d.Kind}
	case *syntax.Part:
		return []syntax.Name{d.Family, d.Kind}
	case *syntax.Require:
		return []syntax.Name{d.What, d.Mode}
	}
	return nil
}

// valuesOf are the values in a declaration's header; those that are missing are
// zero.
func valuesOf(d syntax.Decl) []syntax.Value {
	switch d := d.(type) {
	case *syntax.Bundle:
		return present(d.Length)
	case *syntax.Wire:
		return append(present(d.From, d.To, d.Gauge, d.Length), d.Words...)
	case *syntax.Use:
		return present(d.Path)
	case *syntax.Require:
		return present(d.Op, d.Limit)
	case *syntax.Allow:
		return present(d.Rule, d.On, d.Because, d.Until)
	}
	return nil
}

func present(list ...*syntax.Value) []syntax.Value {
	out := make([]syntax.Value, len(list))
	for i, v := range list {
		if v != nil {
			out[i] = *v
		}
	}
	return out
}
