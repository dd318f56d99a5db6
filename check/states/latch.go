package states

import "hame/check/network"

// latches lists the coils that their own relay's closing contact may feed: those
// on one side of it, while what may be a source lies on the other.
func latches(n *network.Network, digests []digest, relays []int) []int {
	if len(relays) == 0 {
		return nil
	}
	s := newSplits(n, digests)
	var list []int
	for _, i := range relays {
		if e := &n.Elements[i]; !e.Gate.Rest && s.holds(i, &n.Elements[e.Gate.Coil]) {
			list = with(list, e.Gate.Coil)
		}
	}
	return list
}

// splits answers, of any contact, what lies on either side of it once it is
// open. The answer comes from one walk: the nodes are numbered so that all that
// lies beyond a contact that nothing leads round have numbers in a row.
type splits struct {
	n       *network.Network
	forest  *forest
	seat    []int32 // by element: a seat of its block, none where it has none
	number  []int32 // by rank
	size    []int32 // by rank: of what hangs on it, itself included
	sourced []int32 // by number, and one more: how many before it may be sources
}

func newSplits(n *network.Network, digests []digest) *splits {
	edges := make([]edge, 0, len(digests))
	for i, e := range digests {
		if e.kind != network.Load && e.kind != network.Source && e.a != e.b && !e.aBack && !e.bBack {
			edges = append(edges, edge{element: int32(i), a: e.a, b: e.b})
		}
	}
	s := &splits{n: n, forest: newForest(n.Nodes, edges), seat: make([]int32, len(digests))}
	for i := range s.seat {
		s.seat[i] = none
	}
	for q, at := range s.forest.seats {
		if at.from {
			s.seat[at.element] = int32(q)
		}
	}
	for _, b := range s.forest.loops {
		for _, e := range b.edges {
			s.seat[e.element] = b.seats[0]
		}
	}
	s.count(digests)
	return s
}

// count numbers the nodes and counts the sources before each.
func (s *splits) count(digests []digest) {
	f := s.forest
	s.number, s.size = make([]int32, s.n.Nodes), make([]int32, s.n.Nodes)
	s.sourced = make([]int32, s.n.Nodes+1)
	for r := len(f.up) - 1; r >= 0; r-- {
		s.size[r]++
		if top := f.top(r); top != none {
			s.size[top] += s.size[r]
		}
	}
	free, roots := make([]int32, s.n.Nodes), int32(0)
	for r := range f.up {
		if top := f.top(r); top != none {
			s.number[r] = free[top]
			free[top] += s.size[r]
		} else {
			s.number[r] = roots
			roots += s.size[r]
		}
		free[r] = s.number[r] + 1
	}
	for _, e := range digests {
		if e.kind == network.Source || e.bridges() {
			s.sourced[s.number[f.ranks[e.a]]+1]++
			s.sourced[s.number[f.ranks[e.b]]+1]++
		}
	}
	for k := range s.n.Nodes {
		s.sourced[k+1] += s.sourced[k]
	}
}

// holds: a coil lies on one side of a contact, and a source on the other. Where
// something leads round the contact both do.
func (s *splits) holds(contact int, coil *network.Element) bool {
	f, q := s.forest, s.seat[contact]
	if q == none {
		return false
	}
	root := f.comp[f.nodes[f.seats[q].node]]
	whole := s.below(f.ranks[root])
	beyond := whole
	if f.seats[q].other >= 0 {
		if v := f.seats[q].node; f.up[v] == q {
			beyond = s.below(v)
		} else {
			beyond = s.below(f.far(q))
		}
	}
	total, far := s.sources(whole), s.sources(beyond)
	for _, v := range [2]int{coil.A, coil.B} {
		if f.comp[v] != root || s.n.Return(v) {
			continue
		}
		number := s.number[f.ranks[v]]
		inside := number >= beyond[0] && number < beyond[1]
		if beyond == whole && total > 0 || inside && total > far || !inside && far > 0 {
			return true
		}
	}
	return false
}

// below are the numbers of a node, by rank, and of all that hangs on it.
func (s *splits) below(rank int32) [2]int32 {
	return [2]int32{s.number[rank], s.number[rank] + s.size[rank]}
}

func (s *splits) sources(numbers [2]int32) int32 {
	return s.sourced[numbers[1]] - s.sourced[numbers[0]]
}

// with adds to a list what it does not hold yet.
func with(list []int, x int) []int {
	for _, have := range list {
		if have == x {
			return list
		}
	}
	return append(list, x)
}
