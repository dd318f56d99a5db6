package note

import (
	"fmt"
	"math"

	"hame/check/network"
	"hame/check/states"
	"hame/check/wording"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// ofSupply writes a supply's note: what it is, what it gives in each mode, and
// the balance of all.
func (w *work) ofSupply() {
	e := &w.n.Elements[w.main()]
	w.note.Title = w.device.Kind.Name + w.placed(w.device)
	switch {
	case e.Kind == network.Fuse:
		w.tap(w.main())
		return
	case e.Source.Sort == "battery":
		w.battery(w.main(), e.Source)
	default:
		w.limited(w.main(), e.Source)
	}
	w.balance()
	w.modeLoads()
	w.worst(w.main())
}

// battery is volts behind a resistance.
func (w *work) battery(i int, spec *network.SourceSpec) {
	s := w.section("In each mode")
	s.Table = &Table{Head: "mode", Columns: []Column{
		{Name: "charge", Unit: "%"},
		{Name: "open", Unit: "V"},
		{Name: "gives", Unit: "A"},
		{Name: "behind", Unit: "ohm", Milli: true},
		{Name: "so across it", Unit: "V"},
	}}
	for n, p := range w.f.Survey.Modes {
		volts, amps := p.Across(i), p.Amps(i)
		ohm, open := value(spec.Ohm), value(volts+amps*spec.Ohm)
		charging := spec.AcceptsA > 0 && amps <= -spec.AcceptsA*(1-1e-9)
		if charging || p.Position.Engine == "cranking" { // neither hangs on its resistance
			ohm, open = Cell{}, Cell{}
		}
		s.Table.line(w.f.Harness.Modes[n].Name, value(p.Position.Charge), open, value(amps), ohm, value(volts))
	}
	w.resistance(s, spec)
	_, from, _ := tables.OpenCircuitVolts(spec.Chemistry, 100, 20)
	s.say("open-circuit volts", "by the charge, rested").from(from)
	s.add("takes no more than", figure(spec.AcceptsA, "A")).words("what it accepts while it charges")
	s.Words = append(s.Words, "Where it takes all that it accepts, or the engine cranks, its volts aren't those behind its resistance.")
	w.hours(s, spec)
}

func (w *work) resistance(s *Section, spec *network.SourceSpec) {
	row := s.add("resistance", ohms(spec.Ohm))
	_, from := tables.BatteryOhmFromCranking(spec.NominalV, 1)
	switch {
	case w.device.Has("resistance"):
		row.words("as declared")
	case spec.CrankingA > 0:
		row.words(fmt.Sprintf("falls from 12.6 to 7.2 V per 12 V at its %s A of cranking", wording.Number(spec.CrankingA))).from(from)
	default:
		row.words("a small starter battery's, by its capacity: neither resistance nor cranking is declared")
	}
}

// hours is how long a battery lasts in the modes in which it gives.
func (w *work) hours(s *Section, spec *network.SourceSpec) {
	for n, m := range w.f.Harness.Modes {
		p := w.f.Survey.Modes[n]
		const nothing = 1e-3
		if amps := p.Amps(w.main()); amps > nothing && spec.CapacityA > 0 {
			s.add("flat in "+m.Name, figure(spec.CapacityA*m.Charge/amps, "h"),
				first(figure(spec.CapacityA, "Ah")), times(figure(m.Charge, "%")), over(figure(amps, "A"))).words(lasting(m.ForS))
		}
	}
}

func lasting(seconds float64) string {
	if seconds == 0 {
		return "the mode has no end"
	}
	return fmt.Sprintf("the mode is for %s h", wording.Number(seconds/3600))
}

// limited is a source that holds its volts up to a current.
func (w *work) limited(i int, spec *network.SourceSpec) {
	s := w.section("In each mode")
	s.add("holds", figure(spec.NominalV, "V"))
	s.add("gives at most", figure(spec.OutputA, "A"))
	if spec.Sort == "alternator" {
		words := "at idle, as declared"
		if !spec.IdleKnown {
			words = "at idle: 30 % of its output, not declared (common practice)"
		}
		s.add("gives at most", figure(spec.IdleA, "A")).words(words)
	}
	s.Table = &Table{Head: "mode", Columns: []Column{
		{Name: "gives", Unit: "A"}, {Name: "at most", Unit: "A"}, {Name: "of that", Unit: "%"}, {Name: "across it", Unit: "V"},
	}}
	for n, p := range w.f.Survey.Modes {
		most := mostOf(spec, p)
		share := Cell{}
		if most > 0 {
			share = value(p.Amps(i) / most)
		}
		s.Table.line(w.f.Harness.Modes[n].Name, value(p.Amps(i)), value(most), share, value(p.Across(i)))
	}
}

// mostOf is what a source may give in a position.
func mostOf(spec *network.SourceSpec, p *states.Point) float64 {
	switch {
	case spec.Sort != "alternator" || p.Position.Engine == "running":
		return spec.OutputA
	case p.Position.Engine == "idle":
		return spec.IdleA
	}
	return 0
}

// balance is what all sources give against what all loads take, by mode.
func (w *work) balance() {
	s := w.section("Balance in each mode")
	s.Table = &Table{Head: "mode", Columns: []Column{
		{Name: "loads take", Unit: "A"},
		{Name: "alternators", Unit: "A"},
		{Name: "batteries", Unit: "A"},
		{Name: "converters", Unit: "A"},
		{Name: "all give", Unit: "A"},
	}}
	for n, p := range w.f.Survey.Modes {
		var takes float64
		gives := map[string]float64{}
		for i := range w.n.Elements {
			switch e := &w.n.Elements[i]; e.Kind {
			case network.Load:
				takes += flow(p, i)
			case network.Source:
				gives[e.Source.Sort] += p.Amps(i)
			}
		}
		all := gives["alternator"] + gives["battery"] + gives["converter"]
		s.Table.line(w.f.Harness.Modes[n].Name, value(takes), value(gives["alternator"]), value(gives["battery"]), value(gives["converter"]), value(all))
	}
	s.Words = append(s.Words, "A battery is below zero while it charges. The machine's own draw is a load, and so is a converter's input.")
}

// modeLoads lists what each load takes in the chosen mode.
func (w *work) modeLoads() {
	p := w.point()
	if p == nil {
		return
	}
	s := w.section("What is on in " + w.note.Mode)
	s.Table = &Table{Head: "load", Columns: []Column{{Name: "current", Unit: "A"}, {Name: "across it", Unit: "V"}}}
	sum := 0.0
	for _, i := range w.allLoads() {
		if w.f.On(p, i) {
			sum += flow(p, i)
			s.Table.line(w.n.Elements[i].Name, value(flow(p, i)), value(math.Abs(p.Across(i))))
		}
	}
	s.Table.line("sum", value(sum), Cell{}).Sum = true
}

// tap is a borrowed circuit: what its own device carries.
func (w *work) tap(element int) {
	d := w.n.Elements[element].Fuse
	w.note.Title += ", behind a " + wording.Protection(d)
	s := w.section("What its device carries, in each mode")
	loads, _ := w.f.Behind(element)
	w.byMode(s, loads, element, d.RatingA)
	if amps, ok := w.device.SI("carries"); ok {
		s.add("carries already", figure(amps, "A")).words("as declared")
	}
	if w.device.Is(kinds.Supply, "tap") {
		w.loading(element, d)
	}
	w.worst(element)
	w.way(element)
	w.gates(d)
}
