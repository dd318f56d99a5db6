package states

import "math"

// way is which way a current must flow to count for a drop.
type way int

const (
	away    way = iota // from the node that drops are told from
	towards            // it
	either
)

// step is a way into a node, by rank: the seat that it is come by, none at first.
type step struct{ by, to int32 }

// drops are the greatest drops between a node and all that are joined to it by
// what may conduct, by rank; infinite where nothing joins them. They go back to the
// desk.
func (b *bounder) drops(from int, w way) []float64 {
	f := b.forest
	drop := b.d.take(len(f.comp))
	start := f.ranks[from]
	drop[start] = 0
	todo := append(b.d.todo[:0], step{none, start})
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for q := f.first[at.to]; q < f.first[at.to+1]; q++ {
			s := &f.seats[q]
			switch {
			case q == at.by:
			case s.other >= 0:
				far := f.seats[s.other].node
				drop[far] = drop[at.to] + b.along(s, w)
				todo = append(todo, step{s.other, far})
			default:
				todo = b.over(q, drop, todo)
			}
		}
	}
	b.d.todo = todo
	return drop
}

// over goes on from a seat to all others of its block of loops.
func (b *bounder) over(q int32, drop []float64, todo []step) []step {
	f := b.forest
	s := &f.seats[q]
	blk := f.loops[s.loop()]
	across := b.across(blk, blk.nodes[s.element])
	for k, far := range blk.seats {
		if far != q {
			r := f.seats[far].node
			drop[r] = drop[s.node] + across[k]
			todo = append(todo, step{far, r})
		}
	}
	return todo
}

// across is the greatest drop from a node of a block of loops to each other: that
// of all its edges, since which of them are closed is not known, or of the
// shortest way if all always are.
func (b *bounder) across(blk *block, from int32) []float64 {
	across := room(&b.d.across, len(blk.nodes))
	clear(across)
	sum, fast := 0.0, true
	for _, e := range blk.edges {
		el := &b.s.Network.Elements[e.element]
		sum += b.drop(e.element, e.oneWay)
		fast = fast && fixed(el)
	}
	if fast {
		return b.shortest(blk, from)
	}
	for k, v := range blk.nodes {
		if v != from {
			across[k] = sum
		}
	}
	return across
}

// drop is an edge's greatest drop, either way.
func (b *bounder) drop(element int32, oneWay bool) float64 {
	drop := b.each[element] * max(b.fore[element], b.back[element])
	if oneWay {
		forward, _ := b.s.Network.Elements[element].Device.SI("forward")
		drop += forward
	}
	return drop
}

// along is the greatest drop from a seat along its edge by current that flows one
// way.
func (b *bounder) along(s *seat, w way) float64 {
	switch {
	case w == either || s.oneWay:
		return b.drop(s.element, s.oneWay)
	case s.from == (w == away):
		return b.each[s.element] * b.fore[s.element]
	}
	return b.each[s.element] * b.back[s.element]
}

// shortest finds, by trying each edge as often as there are nodes, the least
// drops within a block.
func (b *bounder) shortest(blk *block, from int32) []float64 {
	at := map[int32]int{}
	across := room(&b.d.across, len(blk.nodes))
	for k, v := range blk.nodes {
		at[v], across[k] = k, 0
		if v != from {
			across[k] = math.Inf(1)
		}
	}
	for changed := true; changed; {
		changed = false
		for _, e := range blk.edges {
			x, y, drop := at[e.a], at[e.b], b.drop(e.element, e.oneWay)
			for range 2 {
				if across[x]+drop < across[y] {
					across[y], changed = across[x]+drop, true
				}
				x, y = y, x
			}
		}
	}
	return across
}
