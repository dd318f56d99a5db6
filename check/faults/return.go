package faults

import (
	"hame/check/network"
	"hame/lang/harness"
)

// placed finds the best return node of every place.
func (t *tree) placed() {
	t.places = map[*harness.Place]spot{}
	for _, d := range t.n.Harness.Devices {
		if d.At == nil {
			continue
		}
		for _, term := range d.Terminals {
			if s, ok := t.back[term.Index]; ok && t.n.Return(term.Index) {
				keep(t.places, d.At, s)
			}
		}
	}
}

// beyond finds, for every node of the feed, the best return of the loads that
// lie behind it.
func (t *tree) beyond(order []int) {
	t.below = map[int]spot{}
	for i := len(order) - 1; i >= 0; i-- {
		node := order[i]
		if s, ok := t.own(node); ok {
			keep(t.below, node, s)
		}
		if s, ok := t.below[node]; ok && t.feed[node].via >= 0 {
			keep(t.below, t.across(t.feed[node].via, node), s)
		}
	}
}

// keep remembers the spot of least resistance.
func keep[K comparable](best map[K]spot, key K, s spot) {
	if old, ok := best[key]; !ok || s.ohm() < old.ohm() {
		best[key] = s
	}
}

// own is the return of the load whose feed terminal a node is; the worst one
// where the terminal feeds several.
func (t *tree) own(node int) (spot, bool) {
	var worst spot
	found := false
	for _, i := range t.n.At[node] {
		e := &t.n.Elements[i]
		if e.Kind != network.Load || e.Load.Hidden() {
			continue
		}
		if s, ok := t.back[t.across(i, node)]; ok && (!found || s.ohm() > worst.ohm()) {
			worst, found = s, true
		}
	}
	return worst, found
}

// returned is the way back from a short at a node: hot as the least current
// has it, cold as the greatest has it.
func (t *tree) returned(node int) spot {
	own, isOwn := t.own(node)
	best, found := t.nearby(node)
	switch {
	case isOwn && found && best.cold < own.cold:
		own.cold = best.cold
		return own
	case isOwn:
		return own
	case found:
		return best
	}
	s := t.below[node]
	s.cold = 0 // the greatest current finds a better one
	return s
}

// nearby is the best return at the node's own place.
func (t *tree) nearby(node int) (spot, bool) {
	if p := t.placeOf(node); p != nil {
		s, ok := t.places[p]
		return s, ok
	}
	return spot{}, false
}

// placeOf is where a node's device sits, or nil.
func (t *tree) placeOf(node int) *harness.Place {
	for _, i := range t.n.At[node] {
		w := t.n.Elements[i].Wire
		if w == nil {
			continue
		}
		for _, end := range w.Ends {
			if end.Terminal != nil && end.Terminal.Index == node {
				return end.Place()
			}
		}
	}
	return nil
}
