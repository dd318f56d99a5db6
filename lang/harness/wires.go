package harness

import (
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/syntax"
)

// wires binds the wires' headers and blocks; routes come after.
func (b *binder) wires() {
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Wire); ok {
			b.wire(d, t)
		}
	}
}

var gaugeRow = kinds.Slotted("gauge", "<gauge>")

func (b *binder) wire(d declared, t *syntax.Wire) {
	form := kinds.Form("wire")
	s := settings{kind: form, given: b.settingsOf(d, form)}
	w := &Wire{Name: t.Name.Text, Origin: d.origin(), settings: s, Existing: s.Has("existing"), Cover: coverOf(s)}
	if b.options.ExistingOnly && !w.Existing {
		delete(b.h.names, t.Name.Text)
		return
	}
	for i, v := range []*syntax.Value{t.From, t.To} {
		if v != nil {
			w.Ends[i] = b.end(d, v, w)
		}
	}
	b.sense(d, t.Length, w)
	b.gauge(d, t, w)
	b.words(d, t, w)
	b.said(d, t, w)
	b.hardware(d, w)
	e := b.own(d, t.Name)
	if e == nil {
		return
	}
	e.wire, w.Index = w, len(b.h.Wires)
	b.h.Wires = append(b.h.Wires, w)
	for _, end := range w.Ends {
		if end.Terminal != nil {
			end.Terminal.Wires = append(end.Terminal.Wires, w)
		}
	}
}

// said reads the length in a wire's header. One that could not be read is said
// all the same: no other takes its place.
func (b *binder) said(d declared, t *syntax.Wire, w *Wire) {
	switch {
	case t.Length == nil:
		w.unsaid = w.unsaid || t.Broken
	case b.h.mistaken[fact{w.Name, "gauge"}] && t.Length.Lo.Dim == quantity.None: // mm 2: the gauge's own unit
		w.unsaid = true
	default:
		w.LengthM, w.LengthSaid = b.length(d, t.Length, w.Name)
		w.HasLength, w.unsaid = w.LengthSaid, w.unsaid || !w.LengthSaid
	}
}

// sense says when a wire joins nothing: both ends are one, or both are capped
// and it is no spare that lies in bundles or has its length.
func (b *binder) sense(d declared, length *syntax.Value, w *Wire) {
	from, to := w.Ends[0], w.Ends[1]
	span := from.Span.Join(to.Span)
	switch {
	case from.Capped && to.Capped && !w.Has("via") && length == nil:
		b.say(d.file.Source, span, "value/range", w.Name, "both ends of `%s` are capped: a spare wire has a length, or a `via` that says where it lies", w.Name)
	case from.Terminal != nil && from.Terminal == to.Terminal:
		b.say(d.file.Source, span, "value/range", w.Name, "both ends of `%s` land on `%s`: a wire joins two terminals", w.Name, from.Name())
	default:
		return
	}
	w.unsaid, w.astray = true, true
}

// end binds one end of a wire: a terminal, a device with one terminal, or the
// word capped.
func (b *binder) end(d declared, v *syntax.Value, w *Wire) End {
	end := End{Span: v.Span}
	device, terminal, dotted := cut(v)
	if !dotted && device.Text == "capped" {
		b.cappedName(d, v)
		end.Capped = true
		return end
	}
	broken := d.decl.Header().Broken
	if broken && b.h.names[device.Text] == nil {
		return end // it may be what could not be read
	}
	e := b.lookup(d.file.Source, device, "device")
	if e == nil || e.device == nil {
		return end
	}
	end.Terminal = e.device.Terminal(terminal)
	if end.Terminal == nil && !e.hazy && !broken && !b.hides(e.device) {
		b.unknownTerminal(d, v, e, dotted, w)
	}
	return end
}

// cappedName says, once, that a device of that name stands in the way of the
// word.
func (b *binder) cappedName(d declared, v *syntax.Value) {
	e := b.h.names["capped"]
	if e == nil || e.hazy {
		return
	}
	e.hazy = true
	f := b.say(d.file.Source, v.Span, "name/duplicate", "capped", "`capped` closes a spare end, and %s has the name too: which is meant?", article(e.what))
	f.Figures = []string{"expected: another name for the " + e.what}
	f.Related = []finding.Related{{Place: e.origin.Place(), Message: "declared here"}}
}

// hides reports whether a mistake already said hides terminals: a connector
// without ways has none.
func (b *binder) hides(d *Device) bool {
	return d.Is(kinds.Join, "connector") && len(d.Terminals) == 0 ||
		slices.ContainsFunc([]string{"way", "ways", "input", "poles", "throws", "form", "half"}, func(s string) bool {
			return b.h.mistaken[fact{d.Name, s}]
		})
}

func (b *binder) unknownTerminal(d declared, v *syntax.Value, e *named, dotted bool, w *Wire) {
	var names []string
	for _, t := range e.device.Terminals {
		names = append(names, t.FullName())
	}
	var f *finding.Finding
	if dotted {
		f = b.say(d.file.Source, v.Span, "terminal/unknown", w.Name, "%s `%s` has no terminal `%s`%s", e.device.Kind.Name, e.name, v.Text, kinds.DidYouMean(v.Text, names))
	} else {
		f = b.say(d.file.Source, v.Span, "terminal/unknown", w.Name, "`%s` has several terminals: say which", e.name)
	}
	f.Figures = append(f.Figures, "its terminals: "+terminalList(e.device))
	f.Related = []finding.Related{{Place: e.origin.Place(), Message: "declared here"}}
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

func (b *binder) gauge(d declared, t *syntax.Wire, w *Wire) {
	if t.Gauge == nil { // a broken header, which is said
		b.mistake(w.Name, "gauge")
		return
	}
	w.GaugeSpan = t.Gauge.Span
	if t.Gauge.Kind == syntax.Word && t.Gauge.Text == "auto" {
		w.Auto = true
		return
	}
	if area, ok := b.measure(d, gaugeRow, t.Gauge, w.Name); ok {
		w.Gauge, w.AreaMM2 = t.Gauge.Lo, area
		w.Size = kinds.Size(w.Gauge)
	}
}

// words tells insulation from colour: the tables say which is which.
func (b *binder) words(d declared, t *syntax.Wire, w *Wire) {
	w.Insulation = b.h.Insulation
	var insulated, coloured bool
	for _, v := range t.Words {
		switch {
		case v.Kind == syntax.Word && kinds.IsInsulation(v.Text) && !insulated:
			w.Insulation, insulated = v.Text, true
		case kinds.IsColour(v.Text) && !coloured:
			w.Colour, w.Stripe, _ = strings.Cut(v.Text, "/")
			coloured = true
		default:
			b.strangeWord(d, w, v)
		}
	}
}

func (b *binder) strangeWord(d declared, w *Wire, v syntax.Value) {
	if kinds.IsInsulation(v.Text) || kinds.IsColour(v.Text) {
		b.say(d.file.Source, v.Span, "setting/repeated", w.Name, "`%s` is one insulation or colour too many for a wire", v.Text)
		return
	}
	known := append(kinds.Insulations(), kinds.Colours()...)
	f := b.say(d.file.Source, v.Span, "value/range", w.Name, "`%s` is neither an insulation nor a colour%s", v.Text, kinds.DidYouMean(v.Text, known))
	f.Figures = append(f.Figures, "insulations: "+strings.Join(kinds.Insulations(), ", "), "colours: "+strings.Join(kinds.Colours(), ", "))
}

// hardware derives what is crimped on each end, unless `ends` says it.
func (b *binder) hardware(d declared, w *Wire) {
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
		b.say(d.file.Source, args.Span, "text/syntax", w.Name, "`ends` wants two terminals, one for each end, not %d", len(args.List))
		return
	}
	for i, a := range args.List {
		w.Ends[i].Hardware, w.Ends[i].Given = a.Word, true
	}
}
