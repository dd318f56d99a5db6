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
		var best *spot
		for _, term := range d.Terminals {
			if s := t.back.of(term.Index); s != nil && t.n.Return(term.Index) && (best == nil || s.ohm() < best.ohm()) {
				best = s
			}
		}
		if best == nil {
			continue
		}
		if old, ok := t.places[d.At]; !ok || best.ohm() < old.ohm() {
			t.places[d.At] = *best
		}
	}
}

// beyond finds, for every node of the feed, the best return of the loads that
// lie behind it. nodes are the feed's, in the order of its list.
func (t *tree) beyond(nodes []int32) {
	t.below = make([]*spot, len(t.feed.list))
	for k := len(t.below) - 1; k >= 0; k-- {
		node, via := int(nodes[k]), int(t.feed.list[k].via)
		t.keep(k, t.own(node))
		if via >= 0 {
			t.keep(int(t.feed.at[t.across(via, node)])-1, t.below[k])
		}
	}
}

// keep remembers the return of least resistance.
func (t *tree) keep(k int, s *spot) {
	if old := t.below[k]; old == nil || s != nil && s.ohm() < old.ohm() {
		t.below[k] = s
	}
}

// own is the return of the load whose feed terminal a node is, nil where it is
// none; the worst one where the terminal feeds several.
func (t *tree) own(node int) *spot {
	var worst *spot
	for _, i := range t.n.At[node] {
		e := &t.n.Elements[i]
		if e.Kind != network.Load || e.Load.Hidden() {
			continue
		}
		if s := t.back.of(t.across(i, node)); s != nil && (worst == nil || s.ohm() > worst.ohm()) {
			worst = s
		}
	}
	return worst
}

// returned is the way back from a short at a node: hot as the least current
// has it, cold as the greatest has it.
func (t *tree) returned(node int) spot {
	own := t.own(node)
	best, found := t.nearby(node)
	switch {
	case own != nil && found && best.cold < own.cold:
		s := *own
		s.cold = best.cold
		return s
	case own != nil:
		return *own
	case found:
		return best
	}
	var s spot
	if below := t.below[t.feed.at[node]-1]; below != nil {
		s = *below
	}
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
