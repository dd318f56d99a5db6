package harness

import (
	"fmt"
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// maxPartDepth is how many parts deep a part may be.
const maxPartDepth = 8

// part is a part with the parts that it is of already in its settings.
type part struct {
	name  string
	kind  *kinds.Kind
	given given
	state int // 0 not begun, 1 being read, 2 read
	depth int // of how many parts it is, itself included
}

// parts binds the parts; a library has no more.
func (b *binder) parts() {
	for _, d := range b.decls {
		if _, ok := d.decl.(*syntax.Part); ok && d.own != nil {
			b.part(d.own)
		}
	}
}

// part reads a part once; nil where it or what it is of cannot be read.
func (b *binder) part(e *named) *part {
	name, file := e.name.Text, e.decl.file.Source
	p := as[part](e)
	if p == nil {
		p = &part{name: name, depth: 1}
		e.bound = p
	}
	t := e.decl.decl.(*syntax.Part)
	switch p.state {
	case 1:
		b.say(file, t.Kind.Span, "kind/unknown", name, "part `%s` is of itself", name)
		return p
	case 2:
		return p
	}
	p.state = 1
	base, kind := b.kindOf(file, t.Family, t.Kind, name)
	if base != nil {
		p.depth = base.depth + 1
	}
	if p.depth > maxPartDepth && kind != nil { // those above it are said by it
		b.say(file, t.Kind.Span, "kind/unknown", name, "part `%s` is %d parts deep; at most %d are read", name, p.depth, maxPartDepth)
		kind = nil
	}
	p.kind, p.state = kind, 2
	if kind != nil {
		p.given = b.reader.merge(base, b.reader.settingsOf(*e.decl, kind), name)
	}
	return p
}

// kindOf finds a built-in kind, or the part of that name and its kind.
func (b *binder) kindOf(file *source.File, family, kind syntax.Name, subject string) (*part, *kinds.Kind) {
	if family.IsZero() || kind.IsZero() {
		return nil, nil
	}
	f := kinds.Family(family.Text)
	if k := kinds.Find(f, kind.Text); k != nil {
		return nil, k
	}
	e := b.h.names[kind.Text]
	if e == nil || e.what() != "part" {
		b.unknownKind(file, f, kind, subject)
		return nil, nil
	}
	e.uses++
	p := b.part(e)
	if p.kind != nil && p.kind.Family != f {
		g := b.say(file, kind.Span, "kind/unknown", subject, "part `%s` is a %s, and a %s is declared here", kind.Text, p.kind.Title(), f)
		g.Related = []finding.Related{{Place: e.origin().Place(), Message: "declared here"}}
		return nil, nil
	}
	return p, p.kind
}

// unknownKind says so. Where a library could not be read the kind may be a part
// of it, however near another name is, unless it is what no part may be named: a
// kind of another family. Where a part's header could not be read it may be that
// part, and where the declaration's own name is missing the kind may be what that
// was to be. In each case the mistake is said already.
func (b *binder) unknownKind(file *source.File, f kinds.Family, kind syntax.Name, subject string) {
	var names []string
	for _, k := range kinds.Of(f) {
		names = append(names, k.Name)
	}
	of := slices.IndexFunc(kinds.Families, func(other kinds.Family) bool { return kinds.Find(other, kind.Text) != nil })
	near := b.suggestKind(kind.Text, names)
	if subject == "" || of < 0 && b.lost || near == "" && b.adopted(kind.Text, "part") {
		return
	}
	message := fmt.Sprintf("%s has no kind `%s`, and no part is named so%s", f, kind.Text, near)
	if of >= 0 {
		message = fmt.Sprintf("`%s` is a kind of %s, not of %s", kind.Text, kinds.Families[of], f)
	}
	g := b.say(file, kind.Span, "kind/unknown", subject, "%s", message)
	g.Figures = append(g.Figures, "the kinds of "+string(f)+": "+strings.Join(names, ", "))
}

func (b *binder) suggestKind(word string, kindNames []string) string {
	if b.suggested++; b.suggested > maxSuggestions {
		return ""
	}
	return kinds.DidYouMean(word, append(slices.Clone(kindNames), b.known("part")...))
}

// merge lays a declaration's own settings over its part's. A repeatable
// setting is replaced value by value, in the part's order. A mistake of the
// part's is one of the declaration's.
func (r *reader) merge(base *part, own given, subject string) given {
	if base == nil {
		return own
	}
	out := given(r.args.Take(len(base.given) + len(own))[:0])
	for times := range base.given.settings() {
		name := times[0].Setting.Name
		mine := own.of(name)
		if r.h.mistaken[fact{base.name, name}] && len(mine) == 0 {
			r.mistake(subject, name)
		}
		switch {
		case replaced(name, own):
		case len(mine) > 0 && mine[0].Setting.Repeat:
			out = append(out, mergeRepeated(times, mine)...)
		case len(mine) == 0:
			out = append(out, times...)
		}
	}
	for times := range own.settings() {
		if !out.has(times[0].Setting.Name) {
			out = append(out, times...)
		}
	}
	return out
}

// replaced reports whether a part's setting gives way to one of the declaration's
// own: inputs stand in place of `draws`, and a lead in place of the part's tabs.
func replaced(name string, own given) bool {
	return name == "draws" && own.has("input") ||
		slices.ContainsFunc(own, func(a kinds.Args) bool { return slices.Contains(a.Setting.Over, name) })
}

func mergeRepeated(base, own []kinds.Args) []kinds.Args {
	out := slices.Clone(base)
	for _, a := range own {
		i := slices.IndexFunc(out, func(x kinds.Args) bool { return x.RepeatKey() == a.RepeatKey() })
		if i >= 0 {
			out[i] = a
		} else {
			out = append(out, a)
		}
	}
	return out
}
