package facts

import (
	"slices"

	"hame/check/network"
	"hame/check/protect"
)

// Behind lists the loads that a protective device or contact feeds, switches
// and relays between counting as closed: those on the side of it that no source
// reaches otherwise; of a contact in a load's return the loads ahead of it.
// Where sources lie on both sides, or both sides are return, it feeds either
// way, and the loads of both are listed.
func (f *Facts) Behind(element int) (loads []int, eitherWay bool) {
	e := &f.Network.Elements[element]
	a, sourceA := f.reached(e.A, element)
	b, sourceB := f.reached(e.B, element)
	returnA, returnB := f.Network.Return(e.A), f.Network.Return(e.B)
	switch {
	case returnA && returnB:
		return f.allLoads(), true
	case returnB:
		return a, false
	case returnA:
		return b, false
	case sourceA && sourceB:
		both := append(a, b...)
		slices.Sort(both)
		return slices.Compact(both), true
	case sourceB:
		return a, false
	}
	return b, false
}

func (f *Facts) allLoads() []int {
	var list []int
	for i := range f.Network.Elements {
		if f.Network.Elements[i].Kind == network.Load {
			list = append(list, i)
		}
	}
	return list
}

// reached lists the loads that a node leads to without an element and without
// the return side, and whether a source's feed pole is reached too.
func (f *Facts) reached(from, without int) (loads []int, source bool) {
	n, seen := f.Network, f.borrow()
	defer f.giveBack(seen)
	seen.add(from, n.Nodes)
	for k := 0; k < len(seen.list); k++ {
		at := seen.list[k]
		if n.Return(at) {
			continue
		}
		for _, i := range n.At[at] {
			next := f.Across(i, at)
			switch kind := f.links[i].kind; {
			case i == without:
			case kind == network.Load:
				loads = append(loads, i)
			case kind == network.Source:
				source = source || n.Hot(i) == at
			case seen.Has(next) || kind == network.Diode && at != n.Elements[i].A:
			default:
				seen.add(next, n.Nodes)
			}
		}
	}
	slices.Sort(loads)
	return slices.Compact(loads), source
}

// Answering is the device that answers for what a path reaches: of those that
// a fault cannot get round the one of least rating; of equals the one next to
// the wire. Nil where there is none of a known rating.
func Answering(p protect.Path) *network.Device {
	var best *network.Device
	for _, d := range p.Alone {
		if d.Sort == "link" {
			best = nil // it answers for what lies behind it, and has no rating to go by
		} else if d.RatingA > 0 && (best == nil || d.RatingA <= best.RatingA) {
			best = d
		}
	}
	return best
}
