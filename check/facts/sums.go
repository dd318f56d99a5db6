package facts

import (
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// sums follows the devices whose current is the sum of several elements' that
// meet in one terminal: a panel's ways in its feed, a load's inputs in its
// negative, what is borrowed from a tap beside what its circuit carries.
type sums struct {
	list []*sum
	of   []*sum // by device, nil for most
}

// sum is one device's.
type sum struct {
	plus, minus []int // elements
	beside      []int // what else meets in that terminal, and carries the same
	worst       states.Worst
}

func newSums(f *Facts) *sums {
	s := &sums{of: make([]*sum, len(f.Harness.Devices))}
	for k, d := range f.Harness.Devices {
		var plus, minus []int
		switch {
		case d.Is(kinds.Supply, "tap"):
			plus, minus = f.elementsOf(d), f.carried(d)
		case d.Is(kinds.Protection, "panel"), d.Is(kinds.Load):
			plus = f.elementsOf(d)
		}
		if len(plus)+len(minus) > 1 {
			x := &sum{plus: plus, minus: minus}
			x.beside = f.beside(x)
			s.list, s.of[k] = append(s.list, x), x
		}
	}
	return s
}

// carried is what a tap's circuit feeds beside what is borrowed.
func (f *Facts) carried(d *harness.Device) []int {
	var list []int
	for _, i := range f.Network.At[d.Terminal("out").Index] {
		if e := &f.Network.Elements[i]; e.Device == d && e.Kind == network.Load && e.Load.Sort == "carries" {
			list = append(list, i)
		}
	}
	return list
}

// beside lists what meets a sum's elements in the one terminal that they share.
func (f *Facts) beside(x *sum) []int {
	if len(x.minus) > 0 {
		return nil
	}
	n := f.Network
	first, second := &n.Elements[x.plus[0]], &n.Elements[x.plus[1]]
	at := first.A
	if second.A != at && second.B != at {
		at = first.B
	}
	var list []int
	for _, i := range n.At[at] {
		if !slices.Contains(x.plus, i) {
			list = append(list, i)
		}
	}
	return list
}

// see takes a position in.
func (s *sums) see(p *states.Point) {
	for _, x := range s.list {
		if size := math.Abs(x.in(p)); size > x.worst.Amps {
			x.worst.Amps, x.worst.At = size, &p.Position
		}
	}
}

func (x *sum) in(p *states.Point) float64 {
	amps := 0.0
	for _, i := range x.plus {
		amps += p.Amps(i)
	}
	for _, i := range x.minus {
		amps -= p.Amps(i)
	}
	return amps
}

// bounded is the greatest sum that was found, or where not every position was
// solved the bound of it: no more than all its elements carry, or all that they
// share a terminal with.
func (f *Facts) bounded(x *sum) states.Worst {
	const alike = 1e-6
	w := x.worst
	if f.Survey.Method == "all" {
		return w
	}
	most := f.together(x.plus)
	if len(x.beside) > 0 {
		most = min(most, f.together(x.beside))
	}
	if most > w.Amps*(1+alike)+nothingA {
		w.Amps, w.Bound = most, true
		if w.At == nil {
			w.At = f.Survey.Worst[x.plus[0]].At
		}
	}
	return w
}

// together is the sum of some elements' worst.
func (f *Facts) together(elements []int) float64 {
	amps := 0.0
	for _, i := range elements {
		amps += f.Survey.Worst[i].Amps
	}
	return amps
}
