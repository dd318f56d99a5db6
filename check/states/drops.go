package states

import "math"

// way is which way a current must flow to count for a drop.
type way int

const (
	away    way = iota // from the node that drops are told from
	towards            // it
	either
)

// drops are the greatest drops between a node and all that are joined to it by
// what may conduct; infinite where nothing joins them. They go back to the desk.
func (b *bounder) drops(from int, w way) []float64 {
	f := b.forest
	drop := b.d.take(len(f.comp))
	drop[from] = 0
	todo := append(b.d.todo[:0], seat{-1, from}) // the block come from, and the node
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, s := range f.seats[at.at] {
			if s.block == at.block {
				continue
			}
			blk := &f.blocks[s.block]
			if len(blk.edges) == 1 {
				e := blk.edges[0]
				v := e.a + e.b - at.at
				drop[v] = drop[at.at] + b.along(e, e.a == at.at, w)
				todo = append(todo, seat{s.block, v})
				continue
			}
			across := b.across(blk, at.at)
			for k, v := range blk.nodes {
				if v != at.at {
					drop[v] = drop[at.at] + across[k]
					todo = append(todo, seat{s.block, v})
				}
			}
		}
	}
	b.d.todo = todo
	return drop
}

// across is the greatest drop from a node of a block of loops to each other: that
// of all its edges, since which of them are closed is not known, or of the
// shortest way if all always are.
func (b *bounder) across(blk *block, from int) []float64 {
	across := room(&b.d.across, len(blk.nodes))
	clear(across)
	sum, fast := 0.0, true
	for _, e := range blk.edges {
		el := &b.s.Network.Elements[e.element]
		sum += b.drop(e)
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
func (b *bounder) drop(e edge) float64 {
	drop := b.each[e.element] * max(b.fore[e.element], b.back[e.element])
	if e.oneWay {
		forward, _ := b.s.Network.Elements[e.element].Device.SI("forward")
		drop += forward
	}
	return drop
}

// along is an edge's greatest drop by current that flows one way.
func (b *bounder) along(e edge, onwards bool, w way) float64 {
	if w == either {
		return b.drop(e)
	}
	amps := b.back[e.element]
	if onwards == (w == away) {
		amps = b.fore[e.element]
	}
	drop := b.each[e.element] * amps
	if e.oneWay {
		return b.drop(e)
	}
	return drop
}

// shortest finds, by trying each edge as often as there are nodes, the least
// drops within a block.
func (b *bounder) shortest(blk *block, from int) []float64 {
	at := map[int]int{}
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
			x, y, drop := at[e.a], at[e.b], b.drop(e)
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
