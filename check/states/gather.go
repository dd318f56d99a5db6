package states

// gather sums what each side of every block can give and take, from what the
// nodes give and take themselves.
func (f *forest) gather() {
	var t tally
	for r := len(f.up) - 1; r >= 0; r-- {
		up := f.up[r]
		for q := f.first[r]; q < f.first[r+1]; q++ {
			if q != up {
				f.look(q)
			}
		}
		if up != none {
			f.count(&t, r, up)
			f.hang[up] = t.without(f.seats[up].group)
		}
	}
	for r, up := range f.up {
		f.count(&t, r, none)
		f.around[r] = t.sum
		for q := f.first[r]; q < f.first[r+1]; q++ {
			if q != up {
				f.settle(&t, q)
			}
		}
	}
}

// settle fills in a block from its node towards the root outwards.
func (f *forest) settle(t *tally, q int32) {
	s := &f.seats[q]
	f.hang[q] = t.except(s.group, f.beyond[q])
	if s.other >= 0 {
		f.look(s.other)
		return
	}
	for _, at := range f.loops[s.loop()].seats {
		if at != q {
			f.look(at)
		}
	}
}

// look sums what lies beyond a block, seen from one of its nodes.
func (f *forest) look(q int32) {
	s := &f.seats[q]
	var sum flows
	if s.other >= 0 {
		sum = sum.plus(f.hang[s.other])
	} else {
		for _, at := range f.loops[s.loop()].seats {
			if at != q {
				sum = sum.plus(f.hang[at])
			}
		}
	}
	if s.oneWay && s.from {
		sum.gives = 0
	} else if s.oneWay {
		sum.takes = 0
	}
	f.beyond[q] = sum
}

// tally is what a node and all beyond its blocks give and take; of the blocks
// of a group only one counts.
type tally struct {
	sum    flows // ungrouped, and the greatest of each group
	groups []grouped
}

type grouped struct {
	group int32
	most  flows
}

// count sums up a node without one of its blocks.
func (f *forest) count(t *tally, rank int, without int32) {
	sum := f.own[rank]
	t.groups = t.groups[:0]
	for q := f.first[rank]; q < f.first[rank+1]; q++ {
		switch g := f.seats[q].group; {
		case q == without:
		case g != 0:
			t.join(g, f.beyond[q])
		default:
			sum = sum.plus(f.beyond[q])
		}
	}
	for _, g := range t.groups {
		sum = sum.plus(g.most)
	}
	t.sum = sum
}

func (t *tally) join(group int32, x flows) {
	for i := range t.groups {
		if t.groups[i].group == group {
			t.groups[i].most = t.groups[i].most.most(x)
			return
		}
	}
	t.groups = append(t.groups, grouped{group, x})
}

// without is the sum while an edge of the group is closed that was not counted.
func (t *tally) without(group int32) flows {
	for _, g := range t.groups {
		if g.group == group {
			return t.sum.minus(g.most)
		}
	}
	return t.sum
}

// except is the sum on the near side of a block that was counted.
func (t *tally) except(group int32, beyond flows) flows {
	if group != 0 {
		return t.without(group)
	}
	return t.sum.minus(beyond)
}

// through is the most that can flow along an edge that is a block, from a to b and
// back: what one side gives and the other takes. The seat is the one at a.
func (f *forest) through(q int32) (ab, ba float64) {
	s := &f.seats[q]
	x, y := f.hang[q], f.hang[s.other]
	ab, ba = min(x.gives, y.takes), min(y.gives, x.takes)
	if s.oneWay {
		ba = 0
	}
	return ab, ba
}

// crossing is the most that enters a block at some nodes and leaves it at
// others.
func (b *block) crossing() float64 {
	var sum flows
	for _, h := range b.hang {
		sum = sum.plus(h)
	}
	in, out := 0.0, 0.0
	for _, h := range b.hang {
		in += min(h.gives, max(0, sum.takes-h.takes))
		out += min(h.takes, max(0, sum.gives-h.gives))
	}
	return min(in, out)
}
