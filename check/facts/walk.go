package facts

import (
	"slices"

	"hame/check/network"
	"hame/check/states"
)

// walker follows the currents of one solved position.
type walker struct {
	f      *Facts
	p      *states.Point
	crowds *crowds // of a declared mode's position; else nil
}

// noAmps is what counts as no current.
const noAmps = 1e-9

func (w walker) element(i int) *network.Element { return &w.f.Network.Elements[i] }

// out is what flows out of a node into an element.
func (w walker) out(i, node int) float64 {
	e, amps := w.element(i), w.p.Amps(i)
	if e.Kind == network.Source {
		amps = -amps // it gives out of A
	}
	if e.A == node {
		return amps
	}
	return -amps
}

// ends are the nodes by which the current comes in and goes out.
func (w walker) ends(i int) (from, to int, flows bool) {
	e := w.element(i)
	switch amps := w.out(i, e.A); {
	case amps > noAmps:
		return e.A, e.B, e.A != e.B
	case amps < -noAmps:
		return e.B, e.A, e.A != e.B
	}
	return e.A, e.B, false
}

// above and below are the nodes by which the current comes in and goes out.
func (w walker) above(i int) int {
	from, _, _ := w.ends(i)
	return from
}

func (w walker) below(i int) int {
	_, to, _ := w.ends(i)
	return to
}

// gives reports whether an element is a source that gives.
func (w walker) gives(i int) bool {
	return i >= 0 && w.element(i).Kind == network.Source && w.p.Amps(i) > 0
}

// takes reports whether an element is a load, or a battery that is charged.
func (w walker) takes(i int) bool {
	k := w.element(i).Kind
	return k == network.Load || k == network.Source && w.p.Amps(i) < 0
}

// usual is room for the steps of nearly all ways.
const usual = 24

// up goes against the current, always by the greatest, to what gives it; where
// through is set, through the loads in between too. The steps come in the
// current's order.
func (w walker) up(node int, through bool) (steps []Step, end int, ok bool) {
	var room [usual]Step
	list := room[:0]
	for range w.f.Network.Elements {
		i := w.greatest(node, -1)
		if i < 0 {
			break
		}
		if w.gives(i) || w.takes(i) && !through {
			slices.Reverse(list)
			return append(steps, list...), i, true
		}
		next := w.across(i, node)
		list = append(list, w.step(i, next))
		node = next
	}
	return nil, -1, false
}

// down goes with the current, always by the greatest, to what takes it.
func (w walker) down(node int) (steps []Step, end int, ok bool) {
	var room [usual]Step
	list := room[:0]
	for range w.f.Network.Elements {
		i := w.greatest(node, 1)
		if i < 0 {
			break
		}
		if w.gives(i) || w.takes(i) {
			return append(steps, list...), i, true
		}
		list = append(list, w.step(i, node))
		node = w.across(i, node)
	}
	return nil, -1, false
}

func (w walker) across(i, node int) int { return w.element(i).A + w.element(i).B - node }

// greatest is the element with the greatest current out of a node, or into it
// (sign -1); of equals the first. -1 where nothing flows.
func (w walker) greatest(node int, sign float64) int {
	if c := w.crowd(node); c != nil && sign > 0 {
		return c.away
	} else if c != nil {
		return c.into
	}
	return w.seek(node, sign)
}

// seek looks through all elements at a node for the greatest current.
func (w walker) seek(node int, sign float64) int {
	best, most := -1, noAmps
	for _, i := range w.f.Network.At[node] {
		if amps := sign * w.out(i, node); amps > most && w.element(i).A != w.element(i).B {
			best, most = i, amps
		}
	}
	return best
}
