package harness

import (
	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/syntax"
	"hame/lang/tables"
)

// layout binds zones, then places, then bundles.
func (b *binder) layout() {
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Zone); ok {
			b.zone(d, t)
		}
	}
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Places); ok {
			b.places(d, t)
		}
	}
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Bundle); ok {
			b.bundle(d, t)
		}
	}
}

func (b *binder) zone(d declared, t *syntax.Zone) {
	form := kinds.Form("zone")
	s := settings{kind: form, given: b.reader.settingsOf(d, form)}
	z := &Zone{Name: t.Name.Text, Origin: d.origin(), Exposed: map[string]bool{}}
	if args, ok := s.Args("ambient"); ok {
		if a, ok := args.Get(""); ok {
			z.LeastC, z.MostC, z.Known = a.Lo.SI, a.Hi().SI, true
		}
	}
	if args, ok := s.Args("exposure"); ok {
		for _, a := range args.List {
			z.Exposed[a.Word] = true
		}
	}
	if e := d.own; e != nil {
		e.bound = z
		b.h.Zones = append(b.h.Zones, z)
	}
}

func (b *binder) places(d declared, t *syntax.Places) {
	var z *Zone
	if e := b.lookup(d.file.Source, t.Zone, "zone"); e != nil {
		z = as[Zone](e)
	}
	for _, n := range t.Names {
		if e := b.ofPlace(d, n); e != nil {
			place := &Place{Name: n.Text, Origin: d.originOf(n), Zone: z}
			e.bound = place
			b.h.Places = append(b.h.Places, place)
		}
	}
}

func (b *binder) bundle(d declared, t *syntax.Bundle) {
	form, file := kinds.Form("bundle"), d.file.Source
	s := settings{kind: form, given: b.reader.settingsOf(d, form)}
	bundle := &Bundle{Name: t.Name.Text, Origin: d.origin(), settings: s, Existing: s.Has("existing")}
	bundle.From, bundle.To = b.placeNamed(d, t.From), b.placeNamed(d, t.To)
	if bundle.From != nil && bundle.From == bundle.To {
		b.say(file, t.To.Span, "value/range", t.Name.Text, "`%s` starts and ends at `%s`: a bundle joins two places", t.Name.Text, t.To.Text)
	}
	length := false
	if t.Length != nil {
		bundle.LengthM, length = b.reader.length(d, t.Length, t.Name.Text)
	}
	bundle.unmeasured = !length
	bundle.zoned = b.h.mistaken[fact{t.Name.Text, "zone"}]
	if args, ok := s.Args("zone"); ok {
		if e := b.h.names[args.Word("")]; e != nil {
			bundle.Zone = as[Zone](e)
		}
	}
	bundle.Cover, bundle.zones = coverOf(s), bundle.through()
	e := d.own
	if e == nil {
		return
	}
	e.bound = bundle
	e.hazy = e.hazy || bundle.From == bundle.To
	b.h.Bundles = append(b.h.Bundles, bundle)
	for _, p := range []*Place{bundle.From, bundle.To} {
		if p != nil && bundle.From != bundle.To {
			p.Bundles = append(p.Bundles, bundle)
		}
	}
}

func (b *binder) placeNamed(d declared, n syntax.Name) *Place {
	if e := b.lookup(d.file.Source, n, "place"); e != nil {
		return as[Place](e)
	}
	return nil
}

// length reads a length in a header; a wrong unit or size is said.
func (r *reader) length(d declared, v *syntax.Value, subject string) (float64, bool) {
	return r.measure(d, lengthRow, v, subject)
}

var lengthRow = kinds.Slotted("length", "<m+>")

// measure reads one value of a header as a setting of one slot would be.
func (r *reader) measure(d declared, row *kinds.Setting, v *syntax.Value, subject string) (float64, bool) {
	if v.Lo.Dim == quantity.None && d.decl.Header().Broken { // cut off by the mistake that is said, as in 0,15 m
		r.mistake(subject, row.Name)
		return 0, false
	}
	a, wrong := r.matcher.Value(row, v)
	if wrong != nil {
		r.say(d.file.Source, wrong.Span, wrong.Rule, subject, "%s", wrong.Message)
		r.mistake(subject, row.Name)
		return 0, false
	}
	return a.Lo.SI, a.Lo.Text != ""
}

// coverOf is what the settings say of a cover, nil where they say none.
func coverOf(s settings) *Cover {
	args, ok := s.Args("cover")
	if !ok {
		return nil
	}
	c := &Cover{Name: args.Word("")}
	c.BoreM, _ = args.SI("bore")
	if t, ok := tables.Cover(c.Name); ok && t.MaxC > 0 {
		c.RatedC, c.Known = t.MaxC, true
	}
	if v, ok := args.SI("rated"); ok {
		c.RatedC, c.Known = v, true
	}
	if v, ok := s.SI("rated"); ok {
		c.RatedC, c.Known = v, true
	}
	return c
}
