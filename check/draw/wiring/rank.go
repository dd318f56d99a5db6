package wiring

import (
	"hame/check/draw/layered"
	"hame/lang/kinds"
)

// side is where an end lands on its node.
type side uint8

const (
	atLeft side = iota
	atRight
	atEither // of a bar: that is settled once the columns are known
)

func (l *landing) side() side {
	switch {
	case l.node.bar():
		return atEither
	case l.right:
		return atRight
	}
	return atLeft
}

// rank gives every node its column: feed goes to the right, loads all stand in one
// column, and flags next to what they belong to. Then the bars' sides follow.
func (k *block) rank(s *scheme) {
	index := map[*node]int{}
	for i, n := range k.nodes {
		index[n] = i
	}
	var arrows [][2]int
	for _, r := range k.runs {
		if from, to := s.direction(r); from != nil {
			arrows = append(arrows, [2]int{index[from], index[to]})
		}
	}
	ranks := layered.Rank(len(k.nodes), arrows)
	deepest := -1
	for i, n := range k.nodes {
		if n.box != nil && !n.box.collects && !k.last(n) && (deepest < 0 || ranks[i] > ranks[deepest]) {
			deepest = i
		}
	}
	for i, n := range k.nodes {
		if k.last(n) && deepest >= 0 {
			arrows = append(arrows, [2]int{deepest, i})
		}
	}
	for i, layer := range layered.Rank(len(k.nodes), arrows) {
		k.nodes[i].layer = layer
	}
	k.loners()
	k.nestle()
	k.sides()
}

// last reports whether a node belongs in the loads' column: a load from which
// nothing goes on but returns.
func (k *block) last(n *node) bool {
	if n.box == nil || !n.box.device.Is(kinds.Load) {
		return false
	}
	for _, r := range k.runs {
		for i, e := range r.ends {
			o := r.ends[1-i].node
			if e.node == n && e.right && o.box != nil && !o.box.collects && !o.box.device.Is(kinds.Supply) {
				return false
			}
		}
	}
	return true
}

// direction is which way a wire feeds; nil where neither.
func (s *scheme) direction(r *run) (from, to *node) {
	a, b := r.ends[0], r.ends[1]
	if a.node == b.node {
		return nil, nil
	}
	if a.side() == atEither && b.side() == atEither {
		if s.nearer(b, a) {
			a, b = b, a
		}
		return a.node, b.node
	}
	if a.side() == b.side() {
		return nil, nil
	}
	if b.side() == atRight || a.side() == atLeft {
		a, b = b, a
	}
	return a.node, b.node
}

// nearer reports whether an end is nearer to the sources than another.
func (s *scheme) nearer(a, b *landing) bool {
	x, y := s.dist[a.terminal.Index], s.dist[b.terminal.Index]
	return x < y || x == y && a.node.box.at < b.node.box.at
}

// mostLoners is how many columns nodes take that nothing is joined to.
const mostLoners = 8

// loners gives points of the return side that nothing is joined to columns of
// their own, behind all others.
func (k *block) loners() {
	joined := map[*node]bool{}
	first := 0
	for _, r := range k.runs {
		for _, e := range r.ends {
			joined[e.node] = true
			first = max(first, e.node.layer+1)
		}
	}
	next := 0
	for _, n := range k.nodes {
		if !joined[n] && n.box != nil && n.box.collects {
			n.layer = first + next%mostLoners
			next++
		}
	}
}

// nestle moves the flags that stand at the left of what they belong to next to it.
func (k *block) nestle() {
	shift := 0
	for _, r := range k.runs {
		for i, e := range r.ends {
			if f := e.node.flag; f != nil && f.right && !f.from() {
				e.node.layer = r.ends[1-i].node.layer - 1
				shift = max(shift, -e.node.layer)
			}
		}
	}
	for _, n := range k.nodes {
		n.layer += shift
	}
}

// sides settles at which side of bars wires land: at that of what they come from.
func (k *block) sides() {
	for _, r := range k.runs {
		for i, e := range r.ends {
			if e.side() == atEither {
				o := r.ends[1-i]
				e.right = o.node.layer >= e.node.layer
			}
		}
	}
}
