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
	Sources []*Reach
	covers  []*Cover // by wire
}

// Reach is what one source reaches without any device between.
type Reach struct {
	Source int
	regions
	root    int
	order   []visit // the nodes of bare regions, by distance
	at      []int32 // by node: 1 and its place in the order, 0 where it is in no bare region
	bare    []bool  // by region: the source reaches it with no device
	nearest []int   // the bare regions, by distance
	parent  []entry // by region: how it is come into
	bridge  []bool  // by element: a protective device that a fault cannot get round
}

// entry is the device or diode that leads into a region, and from which.
type entry struct {
	element int32 // 1 more than it; 0 where nothing leads there
	from    int32
}

// Find works it out for every source.
func Find(n *network.Network) *Result {
	r := &Result{covers: make([]*Cover, len(n.Harness.Wires))}
	g := findRegions(n)
	for i := range n.Elements {
		if n.Elements[i].Kind == network.Source {
			r.Sources = append(r.Sources, g.from(i))
		}
	}
	c := newCovering(g, r.Sources)
	for k, w := range n.Harness.Wires {
		r.covers[k] = c.cover(n.OfWire(w))
	}
	return r
}

// Cover is how a wire is protected. Wires may share one; it is the asker's to
// read, not to change.
func (r *Result) Cover(w *harness.Wire) *Cover { return r.covers[w.Index] }

// visit is what is known of a node; nothing where it lies in no bare region.
func (r *Reach) visit(node int) visit {
	if k := r.at[node]; k > 0 {
		return r.order[k-1]
	}
	return visit{node: node, via: -1}
}

// FarM is how far the far end of a wire lies from the source along the
// conductors, no device being between; false where a length is not known.
func (r *Reach) FarM(wire int) (lengthM float64, known bool) {
	e := &r.n.Elements[wire]
	a, b := r.visit(e.A), r.visit(e.B)
	return max(a.distM, b.distM), !a.unknown && !b.unknown && e.Wire.HasLength
}
