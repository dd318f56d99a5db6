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
	given map[string][]kinds.Args
	state int // 0 not begun, 1 being read, 2 read
	depth int // of how many parts it is, itself included
}

// parts binds the parts alone: a library has no more.
func (b *binder) parts() {
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Part); ok {
			if e := b.own(d, t.Name); e != nil {
				b.part(e)
			}
		}
	}
}

// devices binds the parts, then the devices.
func (b *binder) devices() {
	b.parts()
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Device); ok {
			b.device(d, t)
		}
	}
}

// part reads a part once; nil where it or what it is of cannot be read.
func (b *binder) part(e *named) *part {
	if e.part == nil {
		e.part = &part{name: e.name, depth: 1}
	}
	p := e.part
	t := e.decl.decl.(*syntax.Part)
	switch p.state {
	case 1:
		b.say(e.origin.File, t.Kind.Span, "kind/unknown", e.name, "part `%s` is of itself", e.name)
		return p
	case 2:
		return p
	}
	p.state = 1
	base, kind := b.kindOf(e.origin.File, t.Family, t.Kind, e.name)
	if base != nil {
		p.depth = base.depth + 1
	}
	if p.depth > maxPartDepth && kind != nil { // those above it are said by it
		b.say(e.origin.File, t.Kind.Span, "kind/unknown", e.name, "part `%s` is %d parts deep; at most %d are read", e.name, p.depth, maxPartDepth)
		kind = nil
	}
	p.kind, p.state = kind, 2
	if kind != nil {
		p.given = b.merge(base, b.settingsOf(e.decl, kind), e.name)
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
	if e == nil || e.what != "part" {
		b.unknownKind(file, f, kind, subject)
		return nil, nil
	}
	e.uses++
	p := b.part(e)
	if p.kind != nil && p.kind.Family != f {
		g := b.say(file, kind.Span, "kind/unknown", subject, "part `%s` is a %s, and a %s is declared here", kind.Text, p.kind.Title(), f)
		g.Related = []finding.Related{{Place: e.origin.Place(), Message: "declared here"}}
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
func (b *binder) merge(base *part, own map[string][]kinds.Args, subject string) map[string][]kinds.Args {
	if base == nil {
		return own
	}
	out := map[string][]kinds.Args{}
	for name, list := range base.given {
		if b.h.mistaken[fact{base.name, name}] && len(own[name]) == 0 {
			b.mistake(subject, name)
		}
		if !replaced(name, own) {
			out[name] = list
		}
	}
	for name, list := range own {
		if len(list) > 0 && list[0].Setting.Repeat {
			list = mergeRepeated(out[name], list)
		}
		out[name] = list
	}
	return out
}

// replaced reports whether a part's setting gives way to one of the declaration's
// own: inputs stand in place of `draws`, and a lead in place of the part's tabs.
func replaced(name string, own map[string][]kinds.Args) bool {
	if name == "draws" && len(own["input"]) > 0 {
		return true
	}
	for _, list := range own {
		if len(list) > 0 && slices.Contains(list[0].Setting.Over, name) {
			return true
		}
	}
	return false
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

func (b *binder) device(d declared, t *syntax.Device) {
	base, kind := b.kindOf(d.file.Source, t.Keyword, t.Kind, t.Name.Text)
	e := b.own(d, t.Name)
	if kind == nil {
		if e != nil {
			e.hazy = true
		}
		return
	}
	given := b.merge(base, b.settingsOf(d, kind), t.Name.Text)
	if e == nil {
		return
	}
	b.missing(d, kind, given, t.Name.Text)
	dev := &Device{Name: t.Name.Text, Kind: kind, Origin: d.origin(), harness: b.h}
	dev.settings = settings{kind: kind, given: given, of: b.h.outer}
	dev.Existing = dev.Has("existing") || dev.Is(kinds.Ground, "chassis")
	dev.Covered = dev.Has("covered")
	if b.options.ExistingOnly && !dev.Existing { // its name stays unknown, without a word
		delete(b.h.names, t.Name.Text)
		return
	}
	if args, ok := dev.Args("at"); ok {
		if p := b.h.names[args.Word("")]; p != nil {
			dev.At = p.place
		}
	}
	b.special(dev)
	b.terminals(dev)
	e.device, dev.Index = dev, len(b.h.Devices)
	b.h.Devices = append(b.h.Devices, dev)
}

func (b *binder) terminals(dev *Device) {
	for _, t := range dev.Kind.Terminals(dev) {
		dev.Terminals = append(dev.Terminals, &Terminal{
			Device: dev, Name: t.Name, Spare: t.Spare,
			Fitting: dev.Kind.Fitting(dev, t.Name), Index: b.terminal,
		})
		b.terminal++
	}
}
