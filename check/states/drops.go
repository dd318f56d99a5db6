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
// what may conduct; infinite where nothing joins them.
func (b *bounder) drops(from int, w way) []float64 {
	f := b.forest
	drop := make([]float64, len(f.comp))
	for v := range drop {
		drop[v] = math.Inf(1)
	}
	drop[from] = 0
	todo := []seat{{-1, from}} // the block come from, and the node
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, s := range f.seats[at.at] {
			if s.block == at.block {
				continue
			}
			across := b.across(&f.blocks[s.block], at.at, w)
			for k, v := range f.blocks[s.block].nodes {
				if v != at.at {
					drop[v] = drop[at.at] + across[k]
					todo = append(todo, seat{s.block, v})
				}
			}
		}
	}
	return drop
}

// across is the greatest drop from a node of a block to each other: within
// loops that of all their edges, since which of them are closed is not known,
// or of the shortest way if all always are.
func (b *bounder) across(blk *block, from int, w way) []float64 {
	across := make([]float64, len(blk.nodes))
	if len(blk.edges) == 1 {
		e := blk.edges[0]
		across[0] = b.along(e, e.a == from, w)
		across[1] = across[0]
		return across
	}
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
	drop := b.s.ohmAt(e.element, b.p) * max(b.fore[e.element], b.back[e.element])
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
	drop := b.s.ohmAt(e.element, b.p) * amps
	if e.oneWay {
		return b.drop(e)
	}
	return drop
}

// shortest finds, by trying each edge as often as there are nodes, the least
// drops within a block.
func (b *bounder) shortest(blk *block, from int) []float64 {
	at := map[int]int{}
	across := make([]float64, len(blk.nodes))
	for k, v := range blk.nodes {
		at[v] = k
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
