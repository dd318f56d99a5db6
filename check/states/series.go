package states

import "hame/check/network"

// series finds, for every node, the resistance that lies between it and all
// sources: whatever a load there draws runs through it, alone or with what
// others draw, and so takes that much off its volts at the least.
func (b *bounder) series(ohm []float64) {
	n := b.s.Network
	own := b.d.own
	clear(own)
	var poles []int
	for _, i := range b.s.sources {
		if e := &n.Elements[i]; !b.supply[i].off {
			poles = append(poles, e.A, e.B)
			own[e.A], own[e.B] = flows{1, 1}, flows{1, 1}
		}
	}
	b.forest.gather(own)
	done := map[int]bool{}
	for _, v := range poles {
		if comp := b.forest.comp[v]; !done[comp] {
			done[comp] = true
			b.outwards(v, ohm)
		}
	}
}

// outwards adds up, from a source on, the edges behind which there is no other.
func (b *bounder) outwards(from int, ohm []float64) {
	f := b.forest
	todo := []seat{{-1, from}} // the block come from, and the node
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, s := range f.seats[at.at] {
			if s.block == at.block {
				continue
			}
			blk := &f.blocks[s.block]
			none := blk.beyond[s.at] == flows{}
			sourceless := len(blk.edges) == 1 && none
			if none {
				b.reaches = append(b.reaches, reach{s.block, at.at})
			}
			for _, v := range blk.nodes {
				if v == at.at {
					continue
				}
				ohm[v] = ohm[at.at]
				if sourceless {
					ohm[v] += b.each[blk.edges[0].element]
				}
				todo = append(todo, seat{s.block, v})
			}
		}
	}
}

// atMost is the most volts that a load gets of top behind a resistance: the
// greatest that its own draw leaves it. What a load of constant power draws
// falls with its volts, so it is left out.
func atMost(l *network.LoadSpec, heat, top, ohm float64) float64 {
	if l.Watts > 0 && l.Sort != "bulb" {
		return top
	}
	low, high := 0.0, top
	for range 30 {
		volts := (low + high) / 2
		if volts+ohm*mostAmps(l, heat, 0, volts) > top {
			high = volts
		} else {
			low = volts
		}
	}
	return high
}
