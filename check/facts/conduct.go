package facts

import (
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
)

// Closed reports whether a contact is closed in a solved position, a relay's as
// its coil has it there.
func (f *Facts) Closed(p *states.Point, element int) bool {
	g := &f.gates[f.links[element].gate]
	switch g.by {
	case network.Relay:
		return p.In[int(g.coil)] != g.rest
	case network.Hand:
		throw := p.Position.Throws[g.device]
		return throw > 0 && throw == int(g.throw)
	}
	return f.Network.Elements[element].Gate.Stands(p.Position.Key, p.Position.Engine, 0)
}

// Passes reports whether an element leads on from a node in a solved position:
// wires, joints, protection and closed contacts do, and diodes forwards. With no
// position every contact counts as closed.
func (f *Facts) Passes(p *states.Point, element, from int) bool {
	switch f.links[element].kind {
	case network.Load, network.Source:
		return false
	case network.Diode:
		return from == f.Network.Elements[element].A
	case network.Contact:
		return p == nil || f.Closed(p, element)
	}
	return true
}

// Leads reports whether a node leads to another.
func (f *Facts) Leads(from, to int, passes func(element, from int) bool) bool {
	seen := f.borrow()
	defer f.giveBack(seen)
	seen.add(from, f.Network.Nodes)
	for k := 0; k < len(seen.list) && !seen.Has(to); k++ {
		f.spread(seen, seen.list[k], passes)
	}
	return seen.Has(to)
}

// spread adds what a node leads to.
func (f *Facts) spread(seen *Nodes, at int, passes func(element, from int) bool) {
	for _, i := range f.Network.At[at] {
		if next := f.Across(i, at); !seen.Has(next) && passes(i, at) {
			seen.add(next, f.Network.Nodes)
		}
	}
}

// Reach lists the nodes that some nodes lead to, themselves too.
func (f *Facts) Reach(from []int, passes func(element, from int) bool) *Nodes {
	seen := &Nodes{}
	visit := func(node int) {
		if !seen.Has(node) {
			seen.add(node, f.Network.Nodes)
		}
	}
	for _, node := range from {
		visit(node)
	}
	for k := 0; k < len(seen.list); k++ {
		f.spread(seen, seen.list[k], passes)
	}
	return seen
}

// Route is the way of the fewest elements from a node to one that is wanted; of
// equals the first in the network's order. It is empty where the node itself is
// wanted, and false where there is none.
func (f *Facts) Route(from int, wanted func(node int) bool, passes func(element, from int) bool) ([]int, bool) {
	seen := f.borrow()
	defer f.giveBack(seen)
	seen.add(from, f.Network.Nodes)
	way := []step{{-1, -1}}
	for k := 0; k < len(seen.list); k++ {
		at := seen.list[k]
		if wanted(at) {
			return back(way, k), true
		}
		for _, i := range f.Network.At[at] {
			if next := f.Across(i, at); !seen.Has(next) && passes(i, at) {
				seen.add(next, f.Network.Nodes)
				way = append(roomier(way), step{int32(i), int32(k)})
			}
		}
	}
	return nil, false
}

// step is how a node of a list was come to: by an element, from the node at another
// place of the list.
type step struct{ element, from int32 }

// back lists the elements that led to a place, the first first.
func back(way []step, k int) []int {
	var list []int
	for ; way[k].from >= 0; k = int(way[k].from) {
		list = append(list, int(way[k].element))
	}
	slices.Reverse(list)
	return list
}

// link is what walks ask of every element that they meet: half the time of a walk
// over a large harness goes by waiting for the elements themselves.
type link struct {
	ends int32 // the sum of both nodes
	gate int32 // of a contact: the place of its gate
	kind network.Kind
}

// gate is what works a contact, for those that are asked in every position.
type gate struct {
	device *harness.Device
	coil   int32
	throw  int32
	by     network.GateKind
	rest   bool
}

// link lists the links and gates.
func (f *Facts) link() {
	f.links = make([]link, len(f.Network.Elements))
	for i := range f.links {
		e := &f.Network.Elements[i]
		f.links[i] = link{int32(e.A + e.B), int32(len(f.gates)), e.Kind}
		if e.Kind == network.Contact {
			f.gates = append(f.gates, gate{e.Device, int32(e.Gate.Coil), int32(e.Gate.Throw), e.Gate.By, e.Gate.Rest})
		}
	}
}

// Across is the node at an element's other end.
func (f *Facts) Across(element, node int) int { return int(f.links[element].ends) - node }
