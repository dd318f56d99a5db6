package states

import "hame/check/network"

// latches lists the coils that their own relay's closing contact may feed: those
// on one side of it, while what may be a source lies on the other.
func latches(n *network.Network, relays []int) []int {
	if len(relays) == 0 {
		return nil
	}
	s := newSplits(n)
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
	block   map[int]int // by element: its block
	number  []int       // by node
	size    []int       // by node: of what hangs on it, itself included
	sourced []int       // by number, and one more: how many before it may be sources
}

func newSplits(n *network.Network) *splits {
	var edges []edge
	for i := range n.Elements {
		if e := &n.Elements[i]; carries(e) && e.A != e.B && !n.Return(e.A) && !n.Return(e.B) {
			edges = append(edges, edge{element: i, a: e.A, b: e.B})
		}
	}
	s := &splits{n: n, forest: newForest(n.Nodes, edges), block: map[int]int{}}
	for b := range s.forest.blocks {
		for _, e := range s.forest.blocks[b].edges {
			s.block[e.element] = b
		}
	}
	s.count()
	return s
}

// count numbers the nodes and counts the sources before each.
func (s *splits) count() {
	f := s.forest
	s.number, s.size = make([]int, s.n.Nodes), make([]int, s.n.Nodes)
	s.sourced = make([]int, s.n.Nodes+1)
	for k := len(f.order) - 1; k >= 0; k-- {
		v := f.order[k]
		s.size[v]++
		if up := f.up[v]; up.block >= 0 {
			s.size[f.top(up.block)] += s.size[v]
		}
	}
	free, roots := make([]int, s.n.Nodes), 0
	for _, v := range f.order {
		if up := f.up[v]; up.block >= 0 {
			top := f.top(up.block)
			s.number[v] = free[top]
			free[top] += s.size[v]
		} else {
			s.number[v] = roots
			roots += s.size[v]
		}
		free[v] = s.number[v] + 1
	}
	for i := range s.n.Elements {
		if e := &s.n.Elements[i]; e.Kind == network.Source || bridges(s.n, e) {
			s.sourced[s.number[e.A]+1]++
			s.sourced[s.number[e.B]+1]++
		}
	}
	for k := range s.n.Nodes {
		s.sourced[k+1] += s.sourced[k]
	}
}

// holds: a coil lies on one side of a contact, and a source on the other. Where
// something leads round the contact both do.
func (s *splits) holds(contact int, coil *network.Element) bool {
	b, ok := s.block[contact]
	if !ok {
		return false
	}
	blk := &s.forest.blocks[b]
	root := s.forest.comp[blk.nodes[0]]
	whole := [2]int{s.number[root], s.number[root] + s.size[root]}
	beyond := whole
	if len(blk.edges) == 1 {
		v := blk.edges[0].a + blk.edges[0].b - s.forest.top(b)
		beyond = [2]int{s.number[v], s.number[v] + s.size[v]}
	}
	total, far := s.sources(whole), s.sources(beyond)
	for _, v := range [2]int{coil.A, coil.B} {
		if s.forest.comp[v] != root || s.n.Return(v) {
			continue
		}
		inside := s.number[v] >= beyond[0] && s.number[v] < beyond[1]
		if beyond == whole && total > 0 || inside && total > far || !inside && far > 0 {
			return true
		}
	}
	return false
}

func (s *splits) sources(numbers [2]int) int { return s.sourced[numbers[1]] - s.sourced[numbers[0]] }

// carries: current may pass on.
func carries(e *network.Element) bool {
	return e.Kind != network.Load && e.Kind != network.Source
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
