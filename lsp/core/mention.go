package core

import (
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// Sort says what a name stands for, or must stand for where it is used.
type Sort string

// The sorts of names. An End is a device that a wire lands on; Any fits
// whatever is declared.
const (
	Harness Sort = "harness"
	Zone    Sort = "zone"
	Place   Sort = "place"
	Bundle  Sort = "bundle"
	Device  Sort = "device"
	Wire    Sort = "wire"
	Mode    Sort = "mode"
	Part    Sort = "part"
	End     Sort = "end"
	Rule    Sort = "rule"
	Library Sort = "library"
	Any     Sort = "any"
)

// Mention is one time that a name stands in a text.
type Mention struct {
	Name     string
	Span     source.Span // of the name alone
	Sort     Sort
	Declares bool
	Terminal string      // what follows the device's name, without the dot
	Whole    source.Span // the terminal included
	Decl     syntax.Decl // that it stands in
}

// Mentions lists every name that stands in a file, in order. Scope is what
// parts are looked up in.
func Mentions(f *File, scope []*File) []Mention {
	c := &collector{parts: partsOf(scope)}
	for _, d := range f.Tree().Decls {
		c.decl = d
		c.header(d)
		c.settings(c.row(d), d.Header().Block)
	}
	slices.SortFunc(c.list, func(a, b Mention) int { return a.Span.Start - b.Span.Start })
	return c.list
}

type collector struct {
	parts map[string]*syntax.Part
	decl  syntax.Decl
	list  []Mention
}

func partsOf(scope []*File) map[string]*syntax.Part {
	parts := map[string]*syntax.Part{}
	for _, f := range scope {
		for _, d := range f.Tree().Decls {
			if p, ok := d.(*syntax.Part); ok && parts[p.Name.Text] == nil {
				parts[p.Name.Text] = p
			}
		}
	}
	return parts
}

// deepest is how deep a part may be of a part.
const deepest = 8

// kindOf is the built-in kind behind a kind or a part's name, or nil.
func kindOf(parts map[string]*syntax.Part, family, kind string) *kinds.Kind {
	for range deepest {
		if k := kinds.Find(kinds.Family(family), kind); k != nil {
			return k
		}
		p := parts[kind]
		if p == nil || p.Family.Text != family {
			return nil
		}
		kind = p.Kind.Text
	}
	return nil
}

// row is the row of the table that a declaration's settings stand in, or nil.
func (c *collector) row(d syntax.Decl) *kinds.Kind { return rowOf(c.parts, d) }

func rowOf(parts map[string]*syntax.Part, d syntax.Decl) *kinds.Kind {
	switch d := d.(type) {
	case *syntax.Device:
		return kindOf(parts, d.Keyword.Text, d.Kind.Text)
	case *syntax.Part:
		return kindOf(parts, d.Family.Text, d.Kind.Text)
	}
	return kinds.Form(d.Header().Keyword.Text)
}

func (c *collector) add(n syntax.Name, sort Sort, declares bool) {
	if !n.IsZero() {
		c.list = append(c.list, Mention{Name: n.Text, Span: n.Span, Sort: sort, Declares: declares, Whole: n.Span, Decl: c.decl})
	}
}

func (c *collector) declares(n syntax.Name, sort Sort) { c.add(n, sort, true) }
func (c *collector) refers(n syntax.Name, sort Sort)   { c.add(n, sort, false) }

// value adds a name that may have a terminal behind it.
func (c *collector) value(v *syntax.Value, sort Sort) {
	if v == nil || v.Kind != syntax.Word && v.Kind != syntax.Dotted && v.Kind != syntax.Slashed {
		return
	}
	name, terminal := v.Text, ""
	if sort != Rule {
		name, terminal, _ = strings.Cut(v.Text, ".")
	}
	c.list = append(c.list, Mention{
		Name: name, Span: source.Span{Start: v.Start, End: v.Start + len(name)}, Sort: sort,
		Terminal: terminal, Whole: v.Span, Decl: c.decl,
	})
}

func (c *collector) header(d syntax.Decl) {
	switch d := d.(type) {
	case *syntax.Harness:
		c.declares(d.Name, Harness)
	case *syntax.Zone:
		c.declares(d.Name, Zone)
	case *syntax.Mode:
		c.declares(d.Name, Mode)
	case *syntax.Places:
		for _, n := range d.Names {
			c.declares(n, Place)
		}
		c.refers(d.Zone, Zone)
	case *syntax.Bundle:
		c.declares(d.Name, Bundle)
		c.refers(d.From, Place)
		c.refers(d.To, Place)
	default:
		c.others(d)
	}
}

func (c *collector) others(d syntax.Decl) {
	switch d := d.(type) {
	case *syntax.Device:
		c.declares(d.Name, Device)
		c.kind(d.Keyword.Text, d.Kind)
	case *syntax.Part:
		c.declares(d.Name, Part)
		c.kind(d.Family.Text, d.Kind)
	case *syntax.Wire:
		c.declares(d.Name, Wire)
		c.end(d.From)
		c.end(d.To)
	case *syntax.Use:
		if d.Path != nil {
			c.refers(syntax.Name{Text: d.Path.Text, Span: d.Path.Span}, Library)
		}
	case *syntax.Require:
		c.subject(d.Name)
		c.refers(d.Mode, Mode)
	case *syntax.Allow:
		c.value(d.Rule, Rule)
		c.value(d.On, Any)
	}
}

// end adds a wire's end, unless it is the word for none.
func (c *collector) end(v *syntax.Value) {
	if v != nil && v.Text != "capped" {
		c.value(v, End)
	}
}

// subject adds a device or wire, or a panel's way.
func (c *collector) subject(n syntax.Name) {
	if !n.IsZero() {
		c.value(&syntax.Value{Kind: syntax.Dotted, Text: n.Text, Span: n.Span}, Any)
	}
}

// kind adds a part's name where one stands for a kind.
func (c *collector) kind(family string, n syntax.Name) {
	if !n.IsZero() && kinds.Find(kinds.Family(family), n.Text) == nil {
		c.refers(n, Part)
	}
}

// settings adds the names among the values of a block's settings.
func (c *collector) settings(row *kinds.Kind, b *syntax.Block) {
	if row == nil || b == nil {
		return
	}
	for _, s := range b.Settings {
		set, ok := row.Setting(s.Key.Text)
		if !ok || s.Broken {
			continue
		}
		if args, wrong := set.Match(s); wrong == nil {
			c.references(args)
		}
	}
}

// sortOf says what the types of references in the table stand for.
var sortOf = map[string]Sort{
	"place": Place, "zone": Zone, "bundle": Bundle, "mode": Mode,
	"device": Device, "chassis": Device, "switch": Device, "supply": Device,
}

func (c *collector) references(args kinds.Args) {
	for _, a := range args.List {
		if sort, ok := sortOf[a.Type]; ok {
			c.refers(syntax.Name{Text: a.Word, Span: a.Span}, sort)
		}
	}
}

// MentionAt is the mention that an offset touches, or nil.
func MentionAt(list []Mention, offset int) *Mention {
	for i := range list {
		if list[i].Whole.Contains(offset) {
			return &list[i]
		}
	}
	return nil
}
