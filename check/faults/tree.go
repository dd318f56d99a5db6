package faults

import (
	"slices"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
)

// tree is what one source reaches, each node by the way of least resistance.
type tree struct {
	n      *network.Network
	source int
	supply supply
	feed   spots
	back   spots
	places map[*harness.Place]spot // the best return node there
	below  []*spot                 // by spot of the feed: the best return of the loads beyond, nil for none
}

// spots are what is reached, in the order of their resistance.
type spots struct {
	list []spot
	at   []int32 // by node: 1 and its place in the list, 0 where it is not reached
}

// of is a node's spot, nil where it is not reached.
func (s *spots) of(node int) *spot {
	if k := s.at[node]; k > 0 {
		return &s.list[k-1]
	}
	return nil
}

// spot is a node as a tree reaches it.
type spot struct {
	cold, hot float64 // ohm from the root
	dropV     float64 // of diodes
	lacks     *finding.Need
	via       int32 // the element that leads to it; -1 at the root
	fuse      int32 // the last Fuse element on the way, or -1
}

// ohm is what ways are compared by.
func (s *spot) ohm() float64 { return s.cold + s.hot }

// grower grows the trees of a network, one after the other.
type grower struct {
	n    *network.Network
	ohms []ohms // by element
	// nodes are those of what was grown last, in the order of its list.
	nodes []int32
	// What follows is memory to work in.
	queue queue
	list  []spot
}

func newGrower(n *network.Network) *grower {
	return &grower{n: n, ohms: resistances(n), list: make([]spot, 0, n.Nodes), nodes: make([]int32, 0, n.Nodes)}
}

// tree is what one source reaches.
func (g *grower) tree(source int) *tree {
	n := g.n
	t := &tree{n: n, source: source}
	var negative int
	t.supply, negative = supplyOf(n, source)
	t.back = g.grow(negative, func(node int) bool { return n.Feed(node) && !n.Return(node) })
	t.placed()
	t.feed = g.grow(n.Hot(source), n.Return)
	t.beyond(g.nodes)
	return t
}

// grow reaches all that a node leads to (Dijkstra). What is barred is not entered;
// diodes lead forwards alone.
func (g *grower) grow(from int, barred func(int) bool) spots {
	into := spots{list: g.list[:0], at: make([]int32, g.n.Nodes)}
	q, nodes := g.queue[:0], g.nodes[:0]
	q.push(visit{node: int32(from), via: -1})
	for len(q) > 0 {
		v := q.pop()
		if into.at[v.node] > 0 {
			continue
		}
		into.list, nodes = append(into.list, g.spot(&into, v)), append(nodes, v.node)
		into.at[v.node] = int32(len(into.list))
		for _, i := range g.n.At[v.node] {
			e := &g.n.Elements[i]
			next := e.A + e.B - int(v.node)
			if into.at[next] == 0 && passes(e, int(v.node)) && !barred(next) {
				q.push(visit{v.cold + g.ohms[i].cold, v.hot + g.ohms[i].hot, int32(next), int32(i)})
			}
		}
	}
	g.queue, g.list, g.nodes = q, into.list, nodes
	into.list = slices.Clone(into.list)
	return into
}

// spot is a node where it is reached: it goes on from the one before.
func (g *grower) spot(in *spots, v visit) spot {
	if v.via < 0 {
		return spot{cold: v.cold, hot: v.hot, via: -1, fuse: -1}
	}
	e := &g.n.Elements[v.via]
	s := *in.of(e.A + e.B - int(v.node))
	s.cold, s.hot, s.via = v.cold, v.hot, v.via
	if s.lacks == nil && g.ohms[v.via].open {
		s.lacks = lacks(e)
	}
	switch e.Kind {
	case network.Fuse:
		s.fuse = v.via
	case network.Diode:
		forward, _ := e.Device.SI("forward")
		s.dropV += forward
	}
	return s
}

func passes(e *network.Element, from int) bool {
	switch e.Kind {
	case network.Load, network.Source:
		return false
	case network.Diode:
		return from == e.A
	}
	return true
}

// across is an element's other end.
func (t *tree) across(element, node int) int {
	e := &t.n.Elements[element]
	return e.A + e.B - node
}

// ahead is the Fuse element that is next to one on the feed's way to the source, or
// -1.
func (t *tree) ahead(fuse int32) int32 {
	e := &t.n.Elements[fuse]
	if t.feed.of(e.A).via == fuse {
		return t.feed.of(e.B).fuse
	}
	return t.feed.of(e.A).fuse
}
