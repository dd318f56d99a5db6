package harness

import (
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/slab"
	"hame/lang/syntax"
)

// wires binds the wires' headers and blocks; routes come after.
func (b *binder) wires() {
	list := every[*syntax.Wire](b)
	ready := make([]*Wire, len(list)) // those that were read ahead
	b.readAhead(len(list), func(r *reader, i int) {
		ready[i] = r.wire(*list[i], list[i].decl.(*syntax.Wire))
	}, func(i int) { ready[i] = nil })
	b.h.Wires = make([]*Wire, 0, len(list))
	for i, d := range list {
		b.wire(*d, d.decl.(*syntax.Wire), ready[i])
	}
	b.land()
}

func (b *binder) wire(d declared, t *syntax.Wire, w *Wire) {
	if w == nil {
		w = b.reader.wire(d, t)
	} else {
		for _, args := range w.given {
			b.refer(d.file.Source, args, w.Name)
		}
	}
	if b.leaveOut(w.Name, w.Existing) || d.own == nil {
		return
	}
	d.own.bound, w.Index = w, len(b.h.Wires)
	b.h.Wires = append(b.h.Wires, w)
}

// land tells the terminals which wires land on them.
func (b *binder) land() {
	count, all := make([]int, b.terminal), 0
	for _, w := range b.h.Wires {
		for _, end := range w.Ends {
			if end.Terminal != nil {
				count[end.Terminal.Index]++
				all++
			}
		}
	}
	room := slab.For[*Wire](all)
	for _, w := range b.h.Wires {
		for _, end := range w.Ends {
			t := end.Terminal
			if t == nil {
				continue
			}
			if t.Wires == nil {
				t.Wires = room.Take(count[t.Index])[:0]
			}
			t.Wires = append(t.Wires, w)
		}
	}
}

var (
	gaugeRow = kinds.Slotted("gauge", "<gauge>")
	wireForm = kinds.Form("wire")
)

// wire reads a wire and binds its ends.
func (r *reader) wire(d declared, t *syntax.Wire) *Wire {
	w := r.wireRoom.One()
	w.Name, w.Origin = t.Name.Text, d.origin()
	w.settings = settings{kind: wireForm, given: r.settingsOf(d, wireForm)}
	w.Existing, w.Cover = w.Has("existing"), coverOf(w.settings)
	if r.leftOut(w.Existing) {
		return w
	}
	for i, v := range []*syntax.Value{t.From, t.To} {
		if v != nil {
			w.Ends[i] = r.end(d, v, w)
		}
	}
	r.sense(d, t.Length, w)
	r.gauge(d, t, w)
	r.words(d, t, w)
	r.said(d, t, w)
	r.hardware(d, w)
	return w
}

// said reads the length in a wire's header. One that could not be read is said
// all the same: no other takes its place.
func (r *reader) said(d declared, t *syntax.Wire, w *Wire) {
	switch {
	case t.Length == nil:
		w.unsaid = w.unsaid || t.Broken
	case r.h.mistaken[fact{w.Name, "gauge"}] && t.Length.Lo.Dim == quantity.None: // mm 2: the gauge's own unit
		w.unsaid = true
	default:
		w.LengthM, w.LengthSaid = r.length(d, t.Length, w.Name)
		w.HasLength, w.unsaid = w.LengthSaid, w.unsaid || !w.LengthSaid
	}
}

// sense says when a wire joins nothing: both ends are one, or both are capped
// and it is no spare that lies in bundles or has its length.
func (r *reader) sense(d declared, length *syntax.Value, w *Wire) {
	from, to := w.Ends[0], w.Ends[1]
	span := from.Span.Join(to.Span)
	switch {
	case from.Capped && to.Capped && !w.Has("via") && length == nil:
		r.say(d.file.Source, span, "value/range", w.Name, "both ends of `%s` are capped: a spare wire has a length, or a `via` that says where it lies", w.Name)
	case from.Terminal != nil && from.Terminal == to.Terminal:
		r.say(d.file.Source, span, "value/range", w.Name, "both ends of `%s` land on `%s`: a wire joins two terminals", w.Name, from.Name())
	default:
		return
	}
	w.unsaid, w.astray = true, true
}

// end binds one end of a wire: a terminal, a device with one terminal, or the
// word capped.
func (r *reader) end(d declared, v *syntax.Value, w *Wire) End {
	end := End{Span: v.Span}
	device, terminal, dotted := cut(v)
	if !dotted && device.Text == "capped" {
		r.cappedName(d, v)
		end.Capped = true
		return end
	}
	broken := d.decl.Header().Broken
	if broken && r.h.names[device.Text] == nil {
		return end // it may be what could not be read
	}
	e := r.lookup(d.file.Source, device, "device")
	if e == nil || as[Device](e) == nil {
		return end
	}
	dev := as[Device](e)
	end.Terminal = dev.Terminal(terminal)
	if end.Terminal == nil && !e.hazy && !broken && !r.hides(dev) {
		r.unknownTerminal(d, v, e, dotted, w)
	}
	return end
}

// cappedName says, once, that a device of that name stands in the way of the
// word.
func (r *reader) cappedName(d declared, v *syntax.Value) {
	e := r.h.names["capped"]
	if e == nil || e.hazy || r.quiet() {
		return
	}
	e.hazy = true
	f := r.say(d.file.Source, v.Span, "name/duplicate", "capped", "`capped` closes a spare end, and %s has the name too: which is meant?", article(e.what()))
	f.Figures = []string{"expected: another name for the " + e.what()}
	f.Related = []finding.Related{{Place: e.origin().Place(), Message: "declared here"}}
}

// hides reports whether a mistake already said hides terminals: a connector
// without ways has none.
func (b *binder) hides(d *Device) bool {
	return d.Is(kinds.Join, "connector") && len(d.Terminals) == 0 ||
		slices.ContainsFunc([]string{"way", "ways", "input", "poles", "throws", "form", "half"}, func(s string) bool {
			return b.h.mistaken[fact{d.Name, s}]
		})
}

func (r *reader) unknownTerminal(d declared, v *syntax.Value, e *named, dotted bool, w *Wire) {
	if r.quiet() {
		return
	}
	dev, name := as[Device](e), e.name.Text
	var names []string
	for _, t := range dev.Terminals {
		names = append(names, t.FullName())
	}
	var f *finding.Finding
	if dotted {
		f = r.say(d.file.Source, v.Span, "terminal/unknown", w.Name, "%s `%s` has no terminal `%s`%s", dev.Kind.Name, name, v.Text, kinds.DidYouMean(v.Text, names))
	} else {
		f = r.say(d.file.Source, v.Span, "terminal/unknown", w.Name, "`%s` has several terminals: say which", name)
	}
	f.Figures = append(f.Figures, "its terminals: "+terminalList(dev))
	f.Related = []finding.Related{{Place: e.origin().Place(), Message: "declared here"}}
}

// cut splits device.terminal at the first dot.
func cut(v *syntax.Value) (device syntax.Name, terminal string, dotted bool) {
	device = syntax.Name{Text: v.Text, Span: v.Span}
	for i := range len(v.Text) {
		if v.Text[i] == '.' {
			device.Text, device.End = v.Text[:i], v.Start+i
			return device, v.Text[i+1:], true
		}
	}
	return device, "", false
}

func (r *reader) gauge(d declared, t *syntax.Wire, w *Wire) {
	if t.Gauge == nil { // a broken header, which is said
		r.mistake(w.Name, "gauge")
		return
	}
	w.GaugeSpan = t.Gauge.Span
	if t.Gauge.Kind == syntax.Word && t.Gauge.Text == "auto" {
		w.Auto = true
		return
	}
	if area, ok := r.measure(d, gaugeRow, t.Gauge, w.Name); ok {
		w.Gauge, w.AreaMM2 = t.Gauge.Lo, area
		w.Size = kinds.Size(w.Gauge)
	}
}

// words tells insulation from colour: the tables say which is which.
func (r *reader) words(d declared, t *syntax.Wire, w *Wire) {
	w.Insulation = r.h.Insulation
	var insulated, coloured bool
	for i := range t.Words {
		v := &t.Words[i]
		switch {
		case v.Kind == syntax.Word && kinds.IsInsulation(v.Text) && !insulated:
			w.Insulation, insulated = v.Text, true
		case kinds.IsColour(v.Text) && !coloured:
			w.Colour, w.Stripe, _ = strings.Cut(v.Text, "/")
			coloured = true
		default:
			r.strangeWord(d, w, v)
		}
	}
	w.cable = cables[w.Insulation]
}

func (r *reader) strangeWord(d declared, w *Wire, v *syntax.Value) {
	if kinds.IsInsulation(v.Text) || kinds.IsColour(v.Text) {
		r.say(d.file.Source, v.Span, "setting/repeated", w.Name, "`%s` is one insulation or colour too many for a wire", v.Text)
		return
	}
	known := append(kinds.Insulations(), kinds.Colours()...)
	f := r.say(d.file.Source, v.Span, "value/range", w.Name, "`%s` is neither an insulation nor a colour%s", v.Text, kinds.DidYouMean(v.Text, known))
	f.Figures = append(f.Figures, "insulations: "+strings.Join(kinds.Insulations(), ", "), "colours: "+strings.Join(kinds.Colours(), ", "))
}

// hardware derives what is crimped on each end, unless `ends` says it.
func (r *reader) hardware(d declared, w *Wire) {
	for i := range w.Ends {
		if t := w.Ends[i].Terminal; t != nil {
			w.Ends[i].Hardware = t.Fitting.Hardware()
		}
		if w.Ends[i].Capped {
			w.Ends[i].Hardware = "cap"
		}
	}
	args, ok := w.Args("ends")
	if !ok || len(args.List) == 0 {
		return
	}
	if len(args.List) != 2 {
		r.say(d.file.Source, args.Span, "text/syntax", w.Name, "`ends` wants two terminals, one for each end, not %d", len(args.List))
		return
	}
	for i, a := range args.List {
		w.Ends[i].Hardware, w.Ends[i].Given = a.Word, true
	}
}
