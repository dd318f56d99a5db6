package faults

import (
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
)

// Fault is one short, fed by one source.
type Fault struct {
	Source  int // its element
	LeastA  float64
	MostA   float64
	Limited bool // the source's output limits it, not a resistance
	// LeastLacks and MostLacks are the facts that are not declared and without
	// which the current is not known; nil where it is.
	LeastLacks *finding.Need
	MostLacks  *finding.Need
	// FeedOhm and BackOhm are the hot loop without the source, in ohm.
	FeedOhm, BackOhm float64

	tree *tree
	fuse int32 // the last Fuse element on the way, or -1
}

// Guarded reports whether a protective device is on the way.
func (f *Fault) Guarded() bool { return f.fuse >= 0 }

// Devices lists the protective devices on the way, the source's end first.
func (f *Fault) Devices() []*network.Device { return f.tree.devices(f.fuse) }

// Result is the faults of a whole network.
type Result struct {
	n     *network.Network
	trees []*tree
}

// Find works it out: one tree of least resistances per source, and one of its
// returns.
func Find(n *network.Network) *Result {
	r, g := &Result{n: n}, newGrower(n)
	for i := range n.Elements {
		if n.Elements[i].Kind == network.Source {
			r.trees = append(r.trees, g.tree(i))
		}
	}
	return r
}

// At lists the faults at a wire's far end, seen from each source that reaches
// it; none for a return.
func (r *Result) At(w *harness.Wire) []Fault { return r.AppendAt(nil, w) }

// AppendAt is At, added to a list: who asks of every wire needs but one.
func (r *Result) AppendAt(list []Fault, w *harness.Wire) []Fault {
	e := r.n.OfWire(w)
	for _, t := range r.trees {
		if _, far, reached := t.ends(e); reached {
			list = append(list, t.fault(far))
		}
	}
	return list
}

// Behind lists the faults right behind the element of a protective device. They
// are prospective: as if a link of no resistance stood in its place, and it is
// not among the devices on the way.
func (r *Result) Behind(element int) []Fault { return r.AppendBehind(nil, element) }

// AppendBehind is Behind, added to a list.
func (r *Result) AppendBehind(list []Fault, element int) []Fault {
	for _, t := range r.trees {
		if near, _, reached := t.ends(element); reached {
			list = append(list, t.fault(near))
		}
	}
	return list
}

// ends are an element's ends, the one that is nearer to the source first.
func (t *tree) ends(element int) (near, far int, reached bool) {
	e := &t.n.Elements[element]
	a, b := t.feed.of(e.A), t.feed.of(e.B)
	switch {
	case a == nil || b == nil:
		return e.A, e.B, false
	case int(a.via) == element || int(b.via) != element && a.ohm() > b.ohm():
		return e.B, e.A, true
	}
	return e.A, e.B, true
}

// fault is a short at a node of the feed.
func (t *tree) fault(node int) Fault {
	s, supply := t.feed.of(node), &t.supply
	back := t.returned(node)
	f := Fault{
		Source: t.source, FeedOhm: s.hot, BackOhm: back.hot, tree: t, fuse: s.fuse,
		LeastLacks: supply.lacks, MostLacks: supply.lacks,
	}
	f.LeastA, f.Limited = supply.draw(supply.leastV-s.dropV, supply.ohm+s.hot+back.hot, supply.leastA)
	f.MostA, _ = supply.draw(supply.mostV, supply.ohm+s.cold+back.cold, supply.mostA)
	if f.LeastLacks == nil {
		f.LeastLacks = s.lacks
	}
	return f
}

// devices lists the chain of Fuse elements that ends with one.
func (t *tree) devices(fuse int32) []*network.Device {
	count := 0
	for at := fuse; at >= 0; at = t.ahead(at) {
		count++
	}
	list := make([]*network.Device, count)
	for at := fuse; at >= 0; at = t.ahead(at) {
		count--
		list[count] = t.n.Elements[at].Fuse
	}
	return list
}
