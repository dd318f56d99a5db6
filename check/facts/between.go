package facts

import (
	"math"
	"slices"
	"sync"

	"hame/check/network"
)

// between is the way from one node to another: along the current where one
// leads there, by the branches that carry the most; else by whatever conducts.
// It never passes the source that it's for, nor a load.
func (w walker) between(from, to, source int) []Step {
	if steps, ok := w.widest(from, to, source, w.leaving, w.along); ok {
		return steps
	}
	steps, _ := w.widest(from, to, source, func(node int) []int { return w.f.Network.At[node] }, w.conducts)
	return steps
}

// along is how much an element carries out of a node, 0 where it's the wrong
// way. Batteries in a string are passed, loads aren't.
func (w walker) along(i, node int) float64 {
	if amps := w.out(i, node); amps > noAmps && w.element(i).Kind != network.Load {
		return amps
	}
	return 0
}

// conducts is how much an element carries either way; a wire, joint or device
// that carries nothing conducts still.
func (w walker) conducts(i, node int) float64 {
	amps := max(w.out(i, node), -w.out(i, node))
	switch w.element(i).Kind {
	case network.Wire, network.Joint, network.Fuse:
		return max(amps, noAmps)
	case network.Contact, network.Diode:
		if amps > noAmps {
			return amps
		}
	}
	return 0
}

// widest finds the way whose least current is the greatest. Of equals the one
// of the lower node wins, so that the outcome is the same every time.
func (w walker) widest(from, to, source int, at func(node int) []int, width func(i, node int) float64) ([]Step, bool) {
	r := searches.Get().(*reaches)
	defer searches.Put(r)
	r.list, r.open, r.at = r.list[:0], r.open[:0], nil
	r.widen(reach{node: from, width: math.Inf(1)})
	for len(r.open) > 0 {
		k := r.widest()
		here := r.list[k]
		if here.node == to {
			return w.trace(r, k), true
		}
		for _, i := range at(here.node) {
			least := min(here.width, width(i, here.node))
			if least == 0 {
				continue // most of what touches a chassis brings current to it
			}
			if i != source {
				r.widen(reach{node: w.across(i, here.node), width: least, via: i, before: k})
			}
		}
	}
	return nil, false
}

// trace lists the steps that led to what was reached.
func (w walker) trace(r *reaches, k int) []Step {
	count := 0
	for at := k; at > 0; at = r.list[at].before {
		count++
	}
	steps := make([]Step, count)
	for ; k > 0; k = r.list[k].before {
		count--
		steps[count] = w.step(r.list[k].via, r.list[r.list[k].before].node)
	}
	return steps
}

// reach is a node that a search came to.
type reach struct {
	node   int
	width  float64 // the least current on the way to it
	via    int     // the element that led to it
	before int     // and the place in the list of where it led from
	done   bool    // what it leads to was looked at
}

// reaches are those of one search, the one that it began at first. It mostly
// comes to a handful of nodes: few are looked for one by one.
type reaches struct {
	list []reach
	open []int       // places in the list of those that are not done
	at   map[int]int // by node: its place; nil while they are few
}

// searches keeps the memory of searches: each load asks for one or two.
var searches = sync.Pool{New: func() any { return &reaches{} }}

// widest takes the widest of the open ones, by its place.
func (r *reaches) widest() int {
	best := 0
	for j, k := range r.open {
		x, y := &r.list[k], &r.list[r.open[best]]
		if x.width > y.width || x.width == y.width && x.node < y.node {
			best = j
		}
	}
	k := r.open[best]
	r.open = slices.Delete(r.open, best, best+1)
	r.list[k].done = true
	return k
}

// widen takes in a way to a node, unless one is known that is as wide.
func (r *reaches) widen(x reach) {
	switch k := r.find(x.node); {
	case k < 0:
		r.open = append(r.open, len(r.list))
		r.list = append(r.list, x)
		r.index()
	case !r.list[k].done && x.width > r.list[k].width:
		r.list[k] = x
	}
}

func (r *reaches) find(node int) int {
	if r.at == nil {
		return slices.IndexFunc(r.list, func(x reach) bool { return x.node == node })
	}
	if k, ok := r.at[node]; ok {
		return k
	}
	return -1
}

// index notes the place of the last one, or of all where they are few no more.
func (r *reaches) index() {
	last := len(r.list) - 1
	switch {
	case r.at != nil:
		r.at[r.list[last].node] = last
	case last >= fewNodes:
		r.at = map[int]int{}
		for k := range r.list {
			r.at[r.list[k].node] = k
		}
	}
}
