// Package protect works out which protective devices stand between a source
// and a wire. A harness's feed side falls into regions that no protective
// device divides; a fault in a region is fed through the devices on the way
// from each source's own region.
package protect

import (
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
	By    []*network.Device // from the source on; each once
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
	seen := map[*network.Device]bool{}
	for _, s := range sources {
		p, reached := s.path(e)
		if !reached {
			continue
		}
		c.Paths = append(c.Paths, p)
		for _, d := range p.Chain {
			if !seen[d] {
				seen[d] = true
				c.By = append(c.By, d)
			}
		}
	}
	return c
}

// path is how the source reaches one wire's element.
func (r *Reach) path(element int) (Path, bool) {
	e := r.n.Elements[element]
	region := r.of[e.A]
	p := Path{Source: r.Source}
	if r.bare[region] {
		p.Bare = true
		p.FarM, p.Known = max(r.distM[e.A], r.distM[e.B]), !r.unknown[e.A] && !r.unknown[e.B] && e.Wire.HasLength
		return p, true
	}
	for !r.bare[region] {
		in, ok := r.parent[region]
		if !ok {
			return p, false
		}
		if d := r.n.Elements[in.element].Fuse; d != nil {
			p.Chain = append([]*network.Device{d}, p.Chain...)
			if r.bridge[in.element] {
				p.Alone = append([]*network.Device{d}, p.Alone...)
			}
		}
		region = in.from
	}
	return p, true
}
