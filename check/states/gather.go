package states

// gather sums what each side of every block can give and take, from what the
// nodes give and take themselves.
func (f *forest) gather(own []flows) {
	var t tally
	for k := len(f.order) - 1; k >= 0; k-- {
		v := f.order[k]
		up := f.up[v]
		for _, s := range f.seats[v] {
			if s.block != up.block {
				f.look(s)
			}
		}
		if up.block >= 0 {
			f.count(&t, v, own[v], up.block)
			f.blocks[up.block].hang[up.at] = t.without(f.group(up.block))
		}
	}
	for _, v := range f.order {
		f.count(&t, v, own[v], -1)
		for _, s := range f.seats[v] {
			if s.block != f.up[v].block {
				f.settle(&t, s)
			}
		}
	}
}

// settle fills in a block from its node towards the root outwards.
func (f *forest) settle(t *tally, s seat) {
	b := &f.blocks[s.block]
	b.hang[s.at] = t.except(f.group(s.block), b.beyond[s.at])
	for at := range b.nodes {
		if at != s.at {
			f.look(seat{s.block, at})
		}
	}
}

// look sums what lies beyond a block, seen from one of its nodes.
func (f *forest) look(s seat) {
	b := &f.blocks[s.block]
	var sum flows
	for at, h := range b.hang {
		if at != s.at {
			sum = sum.plus(h)
		}
	}
	if len(b.edges) == 1 && b.edges[0].oneWay {
		if b.nodes[s.at] == b.edges[0].a {
			sum.gives = 0
		} else {
			sum.takes = 0
		}
	}
	b.beyond[s.at] = sum
}

// group is a block's group, if it is one edge.
func (f *forest) group(b int) int {
	if len(f.blocks[b].edges) == 1 {
		return f.blocks[b].edges[0].group
	}
	return 0
}

// tally is what a node and all beyond its blocks give and take; of the blocks
// of a group only one counts.
type tally struct {
	sum    flows // ungrouped, and the greatest of each group
	groups []grouped
}

type grouped struct {
	group int
	most  flows
}

// count sums up a node without one of its blocks.
func (f *forest) count(t *tally, v int, own flows, without int) {
	t.sum, t.groups = own, t.groups[:0]
	for _, s := range f.seats[v] {
		if s.block == without {
			continue
		}
		beyond := f.blocks[s.block].beyond[s.at]
		if g := f.group(s.block); g != 0 {
			t.join(g, beyond)
		} else {
			t.sum = t.sum.plus(beyond)
		}
	}
	for _, g := range t.groups {
		t.sum = t.sum.plus(g.most)
	}
}

func (t *tally) join(group int, x flows) {
	for i := range t.groups {
		if t.groups[i].group == group {
			t.groups[i].most = t.groups[i].most.most(x)
			return
		}
	}
	t.groups = append(t.groups, grouped{group, x})
}

// without is the sum while an edge of the group is closed that was not counted.
func (t *tally) without(group int) flows {
	for _, g := range t.groups {
		if g.group == group {
			return t.sum.minus(g.most)
		}
	}
	return t.sum
}

// except is the sum on the near side of a block that was counted.
func (t *tally) except(group int, beyond flows) flows {
	if group != 0 {
		return t.without(group)
	}
	return t.sum.minus(beyond)
}

// through is the most that can flow along a block's edge, from a to b and back.
// Along one edge it is what one side gives and the other takes; within loops it
// is all that crosses the block.
func (b *block) through(e edge) (ab, ba float64) {
	if len(b.edges) > 1 {
		all := b.crossing()
		return all, all
	}
	x, y := b.hang[0], b.hang[1]
	if b.nodes[0] != e.a {
		x, y = y, x
	}
	ab, ba = min(x.gives, y.takes), min(y.gives, x.takes)
	if e.oneWay {
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
