package facts

import (
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/tables"
)

// Step is one element on a way, passed in the direction of the way.
type Step struct {
	Element int
	ColdOhm float64 // at 20 degC
	TempC   float64 // at which it was solved; of a wire alone
	Ohm     float64 // as solved
	Amps    float64 // along the way
	FixedV  float64 // of a diode what it drops at any current; of a battery in the way what it lifts, below zero
	DropV   float64 // Ohm x Amps + FixedV
}

// Way is the way of a current from a source's pole through a load and back to
// its other pole. The drops of both halves sum to SourceV less LoadV.
type Way struct {
	Source  int // its element
	Load    int // a battery that is being charged counts as one
	SourceV float64
	LoadV   float64
	Feed    []Step // from the source to the load
	Back    []Step
}

// Path is the way that an element lies on in a solved position: of a load its
// own; of anything else that of the greatest current through it, always by the
// branch that carries the most. False where it carries nothing.
//
// The ways of the declared modes are asked for by many rules and kept; a Way is
// the asker's to read, not to change.
func (f *Facts) Path(element int, p *states.Point) (Way, bool) {
	n := -1
	if f.Survey != nil {
		n = slices.Index(f.Survey.Modes, p)
	}
	if n < 0 {
		return walker{f: f, p: p}.path(element)
	}
	return f.asked[n].wayOf(element, walker{f, p, &f.asked[n].crowds})
}

func (w walker) path(element int) (Way, bool) {
	from, to, ok := w.ends(element)
	switch {
	case !ok:
		return Way{}, false
	case w.takes(element):
		feed, source, ok := w.up(from, true)
		return w.way(source, element, feed, nil), ok
	case w.gives(element):
		return w.ofSource(element, to)
	}
	above, top, ok := w.up(from, false)
	below, bottom, found := w.down(to)
	if !ok || !found {
		return Way{}, false
	}
	chain := slices.Concat(above, []Step{w.step(element, from)}, below)
	switch {
	case w.gives(top) && w.takes(bottom):
		return w.way(top, bottom, chain, nil), true
	case w.takes(top) && w.gives(bottom):
		return w.ofReturn(top, bottom, to, append(above, w.step(element, from)), chain)
	case w.takes(bottom): // two loads one after the other
		more, source, ok := w.up(w.above(top), true)
		return w.way(source, bottom, append(append(more, w.step(top, w.above(top))), chain...), nil), ok
	}
	return Way{}, false
}

// ofSource is the way of the greatest current that a source gives.
func (w walker) ofSource(source, pole int) (Way, bool) {
	chain, bottom, ok := w.down(pole)
	if !ok || !w.takes(bottom) {
		return Way{}, false
	}
	return w.way(source, bottom, chain, nil), true
}

// ofReturn is the way of a load whose return an element is. Where several
// sources share the return, the one that feeds the load isn't always the one
// that the greatest current goes back to.
func (w walker) ofReturn(load, bottom, to int, ahead, chain []Step) (Way, bool) {
	feed, source, ok := w.up(w.above(load), true)
	if ok && source != bottom {
		chain = append(ahead, w.between(to, w.above(source), source)...)
	}
	return w.way(source, load, feed, chain), ok
}

// way completes the half that is missing.
func (w walker) way(source, load int, feed, back []Step) Way {
	if source < 0 {
		return Way{}
	}
	out := Way{Source: source, Load: load, Feed: feed, Back: back}
	hot, cold := w.below(source), w.above(source)
	top, bottom := w.above(load), w.below(load)
	if feed == nil && hot != top {
		out.Feed = w.between(hot, top, source)
	}
	if back == nil && bottom != cold {
		out.Back = w.between(bottom, cold, source)
	}
	out.SourceV, out.LoadV = w.p.Volts(hot)-w.p.Volts(cold), w.p.Volts(top)-w.p.Volts(bottom)
	return out
}

// step passes an element from a node.
func (w walker) step(i, from int) Step {
	e := w.element(i)
	s := Step{Element: i, ColdOhm: e.Ohm, Ohm: e.Ohm, Amps: w.out(i, from)}
	volts := w.p.Volts(from) - w.p.Volts(w.across(i, from))
	switch e.Kind {
	case network.Wire:
		s.TempC = w.f.SolvedC(i, &w.p.Position)
		s.Ohm = tables.CopperAt(e.Ohm, s.TempC)
	case network.Diode:
		s.FixedV, _ = e.Device.SI("forward")
		s.Ohm = (volts - s.FixedV) / s.Amps
		s.ColdOhm = s.Ohm
	case network.Load:
		s.Ohm = volts / s.Amps
		s.ColdOhm = s.Ohm
	case network.Source:
		s.FixedV = volts
	}
	s.DropV = s.Ohm*s.Amps + s.FixedV
	return s
}
