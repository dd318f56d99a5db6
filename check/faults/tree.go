package faults

import (
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
	before map[int]int // by Fuse element: the one ahead of it, or -1
	back   spots
	places map[*harness.Place]spot // the best return node there
	below  []*spot                 // by spot of the feed: the best return of the loads beyond, nil for none
}

// spots are what is reached, in the order of their resistance.
type spots struct {
	list  []spot
	nodes []int   // of the list
	at    []int32 // by node: 1 and its place in the list, 0 where it is not reached
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
	via       int     // the element that leads to it; -1 at the root
	cold, hot float64 // ohm from the root
	dropV     float64 // of diodes
	fuse      int     // the last Fuse element on the way, or -1
	lacks     *finding.Need
}

// ohm is what ways are compared by.
func (s spot) ohm() float64 { return s.cold + s.hot }

func newTree(n *network.Network, source int) *tree {
	t := &tree{n: n, source: source, before: map[int]int{}}
	var negative int
	t.supply, negative = supplyOf(n, source)
	hot := n.Hot(source)
	t.feed = t.grow(hot, func(node int) bool { return n.Return(node) })
	t.back = t.grow(negative, func(node int) bool { return n.Feed(node) && !n.Return(node) })
	t.placed()
	t.beyond()
	return t
}

// grow reaches all that a node leads to (Dijkstra). What is barred is not entered;
// diodes lead forwards alone.
func (t *tree) grow(from int, barred func(int) bool) spots {
	into := spots{at: make([]int32, t.n.Nodes)}
	q := queue{{node: from, spot: spot{via: -1, fuse: -1}}}
	for len(q) > 0 {
		at := q.pop()
		if into.at[at.node] > 0 {
			continue
		}
		into.list, into.nodes = append(into.list, at.spot), append(into.nodes, at.node)
		into.at[at.node] = int32(len(into.list))
		if at.via >= 0 && t.n.Elements[at.via].Kind == network.Fuse {
			t.before[at.via] = into.of(t.across(at.via, at.node)).fuse
		}
		for _, i := range t.n.At[at.node] {
			next := t.across(i, at.node)
			if into.at[next] == 0 && t.passes(i, at.node) && !barred(next) {
				q.push(visit{next, t.step(at.spot, i)})
			}
		}
	}
	return into
}

// across is an element's other end.
func (t *tree) across(element, node int) int {
	e := &t.n.Elements[element]
	return e.A + e.B - node
}

func (t *tree) passes(element, from int) bool {
	e := &t.n.Elements[element]
	switch e.Kind {
	case network.Load, network.Source:
		return false
	case network.Diode:
		return from == e.A
	}
	return true
}

// step goes on from a spot through an element.
func (t *tree) step(s spot, element int) spot {
	e := &t.n.Elements[element]
	cold, hot, lacks := resistance(e)
	next := spot{via: element, cold: s.cold + cold, hot: s.hot + hot, dropV: s.dropV, fuse: s.fuse, lacks: s.lacks}
	if next.lacks == nil {
		next.lacks = lacks
	}
	switch e.Kind {
	case network.Fuse:
		next.fuse = element
	case network.Diode:
		forward, _ := e.Device.SI("forward")
		next.dropV += forward
	}
	return next
}
