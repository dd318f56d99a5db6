package facts

import (
	"hame/check/network"
	"hame/check/states"
)

// Fed tells what a position's closed contacts feed: without any current in mind,
// and without the ways that lead through loads.
type Fed struct {
	f    *Facts
	hot  *Nodes // a source's live pole leads here
	cold *Nodes // from here the way leads to a source's other pole
}

// FedIn works out what a solved position feeds.
func (f *Facts) FedIn(p *states.Point) Fed {
	var hot, cold []int
	for _, i := range f.Sources() {
		if e := &f.Network.Elements[i]; gives(e, p, i) {
			pole := f.Network.Hot(i)
			hot, cold = append(hot, pole), append(cold, e.A+e.B-pole)
		}
	}
	return Fed{
		f:    f,
		hot:  f.Reach(hot, func(i, from int) bool { return f.Passes(p, i, from) }),
		cold: f.Reach(cold, func(i, from int) bool { return f.Passes(p, i, f.Across(i, from)) }),
	}
}

// gives: a battery always does, an alternator while the engine turns it, a
// converter while its input holds up.
func gives(e *network.Element, p *states.Point, i int) bool {
	const noVolts = 0.5
	switch e.Source.Sort {
	case "alternator":
		return p.Position.Engine == "idle" || p.Position.Engine == "running"
	case "converter":
		return p.Across(i) > noVolts || p.Across(i) < -noVolts
	}
	return true
}

// Runs reports whether closed contacts alone lead from a source to a load and
// back: the position is meant to run it.
func (s Fed) Runs(load int) bool {
	e := &s.f.Network.Elements[load]
	return s.hot.Has(e.A) && s.cold.Has(e.B) || s.hot.Has(e.B) && s.cold.Has(e.A)
}
