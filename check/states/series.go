package states

import "hame/check/network"

// series finds, for every node, the resistance that lies between it and all
// sources: whatever a load there draws runs through it, alone or with what
// others draw, and so takes that much off its volts at the least.
func (b *bounder) series(ohm []float64) {
	f := b.forest
	clear(f.own)
	var poles []int32
	for _, i := range b.s.sources {
		if e := b.s.digests[i]; !b.supply[i].off {
			poles = append(poles, e.a, e.b)
			f.own[f.ranks[e.a]], f.own[f.ranks[e.b]] = flows{1, 1}, flows{1, 1}
		}
	}
	f.gather()
	done := map[int32]bool{}
	for _, v := range poles {
		if comp := f.comp[v]; !done[comp] {
			done[comp] = true
			b.outwards(f.ranks[v], ohm)
		}
	}
}

// outwards adds up, from a source on, the edges behind which there is no other.
func (b *bounder) outwards(from int32, ohm []float64) {
	f := b.forest
	todo := append(b.d.todo[:0], step{none, from})
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for q := f.first[at.to]; q < f.first[at.to+1]; q++ {
			if q == at.by {
				continue
			}
			sourceless := f.beyond[q] == flows{}
			if sourceless {
				b.reaches = append(b.reaches, q)
			}
			todo = b.outward(q, sourceless, ohm, todo)
		}
	}
	b.d.todo = todo
}

// outward goes on from a seat to all others of its block.
func (b *bounder) outward(q int32, sourceless bool, ohm []float64, todo []step) []step {
	f := b.forest
	s := &f.seats[q]
	if s.other < 0 {
		for _, far := range f.loops[s.loop()].seats {
			if far != q {
				ohm[f.seats[far].node] = ohm[s.node]
				todo = append(todo, step{far, f.seats[far].node})
			}
		}
		return todo
	}
	far := f.seats[s.other].node
	ohm[far] = ohm[s.node]
	if sourceless {
		ohm[far] += b.each[s.element]
	}
	return append(todo, step{s.other, far})
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
