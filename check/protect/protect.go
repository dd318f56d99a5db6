// Package protect works out which protective devices stand between a source
// and a wire. A harness's feed side falls into regions that no protective
// device divides; a fault in a region is fed through the devices on the way
// from each source's own region.
package protect

import (
	"cmp"
	"slices"

	"hame/check/network"
	"hame/lang/harness"
)

// Result is what was worked out for a whole network.
type Result struct {
	Wires   map[*harness.Wire]*Cover
	Sources []*Reach
}

// Cover is how one wire is protected, over all sources.
type Cover struct {
	By    []*network.Device // those nearer to a source before those behind them; each once
	Paths []Path
}

// Path is how one source reaches a wire.
type Path struct {
	Source int               // its element
	Chain  []*network.Device // the devices on the way, the source's end first
	Alone  []*network.Device // those of them that a fault cannot get round
	Bare   bool              // no device at all
	FarM   float64           // where Bare: along the conductors to the wire's far end
	Known  bool              // FarM is known: all lengths on the way are
}

// Reach is what one source reaches without any device between.
type Reach struct {
	Source int
	regions
	root    int
	distM   map[int]float64 // of nodes in bare regions
	via     map[int]int     // the element by which a node is reached
	unknown map[int]bool    // a length on the way is not known
	order   []int           // nodes by distance
	bare    map[int]bool    // regions that the source reaches with no device
	parent  map[int]entry   // how a region is come into
	bridge  map[int]bool    // Fuse elements that a fault cannot get round
}

// entry is the device or diode that leads into a region, and from which.
type entry struct{ element, from int }

// Find works it out for every source.
func Find(n *network.Network) *Result {
	r := &Result{Wires: map[*harness.Wire]*Cover{}}
	g := findRegions(n)
	for i, e := range n.Elements {
		if e.Kind == network.Source {
			r.Sources = append(r.Sources, g.from(i))
		}
	}
	for _, w := range n.Harness.Wires {
		r.Wires[w] = cover(n, r.Sources, w)
	}
	return r
}

// cover collects how all sources reach a wire.
func cover(n *network.Network, sources []*Reach, w *harness.Wire) *Cover {
	c := &Cover{}
	e, ok := n.OfWire[w]
	if !ok || n.Return(n.Elements[e].A) || n.Return(n.Elements[e].B) {
		return c
	}
	for _, s := range sources {
		if p, reached := s.path(e); reached {
			c.Paths = append(c.Paths, p)
		}
	}
	c.By = inOrder(c.Paths)
	return c
}

// inOrder lists the devices of all paths, each once, and none before one that
// stands nearer to a source than it does on any path.
func inOrder(paths []Path) []*network.Device {
	var list []*network.Device
	rank := map[*network.Device]int{}
	for _, p := range paths {
		for at, d := range p.Chain {
			if _, seen := rank[d]; !seen {
				list = append(list, d)
			}
			rank[d] = max(rank[d], at)
		}
	}
	slices.SortStableFunc(list, func(a, b *network.Device) int { return cmp.Compare(rank[a], rank[b]) })
	return list
}

// FarM is how far the far end of a wire lies from the source along the
// conductors, no device being between; false where a length is not known.
func (r *Reach) FarM(wire int) (lengthM float64, known bool) {
	e := &r.n.Elements[wire]
	return max(r.distM[e.A], r.distM[e.B]), !r.unknown[e.A] && !r.unknown[e.B] && e.Wire.HasLength
}

// path is how the source reaches one wire's element.
func (r *Reach) path(element int) (Path, bool) {
	e := r.n.Elements[element]
	region := r.of[e.A]
	p := Path{Source: r.Source}
	if r.bare[region] {
		p.Bare = true
		p.FarM, p.Known = r.FarM(element)
		return p, true
	}
	for !r.bare[region] {
		in, ok := r.parent[region]
		if !ok {
			return p, false
		}
		if d := r.n.Elements[in.element].Fuse; d != nil {
			p.Chain = append(p.Chain, d)
			if r.bridge[in.element] {
				p.Alone = append(p.Alone, d)
			}
		}
		region = in.from
	}
	slices.Reverse(p.Chain)
	slices.Reverse(p.Alone)
	return p, true
}
