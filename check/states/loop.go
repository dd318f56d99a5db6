package states

import (
	"hame/check/network"
)

// mostLoop is the greatest number of contacts in a block whose every state is
// gone through.
const mostLoop = 6

// looped bounds the edges of a block in which contacts open and close, by each
// state that they can be in together.
func (b *bounder) looped(blk *block) bool {
	if len(blk.nodes) > mostMesh {
		return false
	}
	if blk.states == nil {
		blk.states = b.statesOf(blk)
	}
	if blk.states == nil {
		return false
	}
	all := blk.crossing()
	for _, e := range blk.edges {
		b.fore[e.element], b.back[e.element] = 0, 0
	}
	for _, parts := range blk.states {
		if !b.possible(parts) {
			continue
		}
		for _, part := range parts {
			b.raise(part, all)
		}
	}
	return true
}

// raise lifts the bounds of a part's edges to what can flow in it.
func (b *bounder) raise(part *loopPart, all float64) {
	part.take()
	for k, e := range part.edges {
		var ab, ba float64
		if len(part.edges) > 1 {
			ab, ba = part.greatest(part.shares[k], 1), part.greatest(part.shares[k], -1)
		} else {
			ab, ba = part.through(e)
		}
		b.fore[e.element] = max(b.fore[e.element], min(ab, all))
		b.back[e.element] = max(b.back[e.element], min(ba, all))
	}
}

// loopPart is what hangs together of a block in one state of its contacts.
type loopPart struct {
	block
	whole *block
	from  []int // by node: where it is in the whole
	held  []int // coils of relays that are out in this state though a node of theirs is here
}

// through is what one side of the only edge gives and the other takes. None is one
// way here: see statesOf.
func (p *loopPart) through(e edge) (ab, ba float64) {
	x, y := p.hang[0], p.hang[1]
	if p.nodes[0] != e.a {
		x, y = y, x
	}
	return min(x.gives, y.takes), min(y.gives, x.takes)
}

func (p *loopPart) take() {
	for k, at := range p.from {
		p.hang[k] = p.whole.hang[at]
	}
}

// possible: no relay is out whose coil is fed by the very block that its contact
// is in. Only a coil that is sure to pull in counts, and only what gives more
// than all loads together could the wrong way round is sure to be a source.
func (b *bounder) possible(parts []*loopPart) bool {
	for _, part := range parts {
		for _, coil := range part.held {
			c := b.s.Network.Elements[coil].Load.Coil
			if b.sneaks[coil] || b.lo[coil] < c.PullsV*b.heat(coil)+slackV {
				continue
			}
			for _, at := range part.from {
				if part.whole.hang[at].gives > b.wrong {
					return false
				}
			}
		}
	}
	return true
}

// feedOf lists the poles of a coil that are not on the return side.
func (b *bounder) feedOf(coil int) []int32 {
	var list []int32
	e := b.s.digests[coil]
	for _, v := range [2]int32{e.a, e.b} {
		if !b.s.Network.Return(int(v)) {
			list = append(list, v)
		}
	}
	return list
}

// statesOf lists the states of a block's contacts, nil where they are too many
// or something else than contacts and what stays is in it.
func (b *bounder) statesOf(blk *block) [][]*loopPart {
	var contacts []int // edges
	for k, e := range blk.edges {
		switch el := &b.s.Network.Elements[e.element]; {
		case el.Kind == network.Contact && (el.Gate.By == network.Hand || el.Gate.By == network.Relay):
			contacts = append(contacts, k)
		case el.Kind == network.Diode:
			return nil
		}
	}
	if len(contacts) > mostLoop {
		return nil
	}
	var list [][]*loopPart
	for state := range 1 << len(contacts) {
		open := make([]bool, len(blk.edges))
		for k, c := range contacts {
			open[c] = state>>k&1 == 0
		}
		if b.together(blk, open) {
			list = append(list, b.partsOf(blk, open))
		}
	}
	return list
}

// together: of each group one contact at most is closed.
func (b *bounder) together(blk *block, open []bool) bool {
	closed := map[int32]int{}
	for k, e := range blk.edges {
		el := &b.s.Network.Elements[e.element]
		if el.Kind != network.Contact || open[k] || e.group == 0 {
			continue
		}
		place := el.Gate.Throw
		if el.Gate.By == network.Relay {
			place = 1 + one(el.Gate.Rest)
		}
		if was := closed[e.group]; was != 0 && was != place {
			return false
		}
		closed[e.group] = place
	}
	return true
}

// partsOf splits a block with some of its contacts open.
func (b *bounder) partsOf(blk *block, open []bool) []*loopPart {
	at := map[int32]int{}
	root := make([]int, len(blk.nodes))
	for k, v := range blk.nodes {
		at[v], root[k] = k, k
	}
	find := func(k int) int {
		for root[k] != k {
			k = root[k]
		}
		return k
	}
	for k, e := range blk.edges {
		if !open[k] {
			x, y := find(at[e.a]), find(at[e.b])
			root[max(x, y)] = min(x, y)
		}
	}
	parts := map[int]*loopPart{}
	var list []*loopPart
	for k, v := range blk.nodes {
		r := find(k)
		if parts[r] == nil {
			parts[r] = &loopPart{whole: blk}
			list = append(list, parts[r])
		}
		parts[r].nodes, parts[r].from = append(parts[r].nodes, v), append(parts[r].from, k)
	}
	for k, e := range blk.edges {
		if !open[k] {
			p := parts[find(at[e.a])]
			p.edges = append(p.edges, e)
		} else if el := &b.s.Network.Elements[e.element]; el.Gate.By == network.Relay && !el.Gate.Rest {
			for _, v := range b.feedOf(el.Gate.Coil) {
				if k, ok := at[v]; ok {
					p := parts[find(k)]
					p.held = append(p.held, el.Gate.Coil)
				}
			}
		}
	}
	for _, p := range list {
		p.hang = make([]flows, len(p.nodes))
		if len(p.edges) > 1 {
			p.shares = b.shares(&p.block)
		}
	}
	return list
}
