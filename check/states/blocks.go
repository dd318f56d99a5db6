package states

import "slices"

// edge is an element between two nodes that may carry current on.
type edge struct {
	element int
	a, b    int
	oneWay  bool // from a to b alone
	group   int  // edges of one group that meet in a node are never closed together; 0 for none
}

// block is a part of a graph that no single node cuts in two: one edge, or the
// edges of loops. Beyond each of its nodes hangs what is joined to it there.
type block struct {
	edges  []edge
	nodes  []int
	hang   []flows       // by node: what lies on its side without this block
	beyond []flows       // by node: what lies on the other side of the block
	states [][]*loopPart // what hangs together in each state of its contacts: see looped
	shares [][]float64   // by edge and node, once worked out: see meshed
}

// flows are the greatest currents that a side can give and take.
type flows struct{ gives, takes float64 }

func (f flows) plus(g flows) flows  { return flows{f.gives + g.gives, f.takes + g.takes} }
func (f flows) minus(g flows) flows { return flows{max(0, f.gives-g.gives), max(0, f.takes-g.takes)} }
func (f flows) most(g flows) flows  { return flows{max(f.gives, g.gives), max(f.takes, g.takes)} }

// seat is a block's place at a node.
type seat struct{ block, at int }

// forest is a graph as blocks that meet in nodes: a tree for each connected
// part.
type forest struct {
	blocks []block
	seats  [][]seat // by node
	comp   []int    // by node: its connected part
	order  []int    // nodes, each before those beyond it, and what hangs together side by side
	up     []seat   // by node: its seat in the block towards the root; block -1 at roots
	tops   []int    // by block: its node nearest to the root
	store  store
}

// store is the room that the blocks share, so that thousands of them take no
// more than a few pieces of memory.
type store struct {
	edges []edge
	nodes []int
	flows []flows
}

// newStore makes room for the blocks of so many edges: a block of k edges has at
// most k+1 nodes, which are 2k at most.
func newStore(edges int) store {
	return store{make([]edge, 0, edges), make([]int, 0, 2*edges), make([]flows, 4*edges)}
}

// flow cuts a piece off.
func (s *store) flow(n int) []flows {
	cut := s.flows[:n:n]
	s.flows = s.flows[n:]
	return cut
}

// newForest splits a graph into blocks (Hopcroft and Tarjan 1973, from memory).
func newForest(nodes int, edges []edge) *forest {
	f := &forest{seats: make([][]seat, nodes), comp: make([]int, nodes), up: make([]seat, nodes), store: newStore(len(edges))}
	w := newWalker(nodes, edges)
	seats := make([]seat, 2*len(edges))
	for v := range nodes {
		f.comp[v] = -1
		f.seats[v] = seats[w.first[v]:w.first[v]:w.first[v+1]] // no more blocks than edges meet in it
	}
	for v := range nodes {
		if w.depth[v] == 0 {
			w.from(v, f)
		}
	}
	f.arrange()
	return f
}

// walker goes through a graph depth first.
type walker struct {
	edges []edge
	first []int // by node, and one more: where its edges begin in near
	near  []int // edges by node
	next  []int // by node: the first of near that was not gone
	depth []int // by node: 0 where not visited
	low   []int // least depth that is reached from below a node without its own edge
	path  []int // nodes on the way from the root
	by    []int // by node: the edge that it was reached by
	stack []int // edges that were gone and belong to no block yet
}

func newWalker(nodes int, edges []edge) *walker {
	w := &walker{
		edges: edges, first: make([]int, nodes+1), near: make([]int, 2*len(edges)),
		next: make([]int, nodes), depth: make([]int, nodes), low: make([]int, nodes), by: make([]int, nodes),
	}
	for _, e := range edges {
		w.first[e.a]++
		w.first[e.b]++
	}
	sum := 0
	for v, n := range w.first {
		w.first[v] = sum
		sum += n
	}
	copy(w.next, w.first)
	for i, e := range edges {
		for _, v := range [2]int{e.a, e.b} {
			w.near[w.next[v]] = i
			w.next[v]++
		}
	}
	copy(w.next, w.first)
	return w
}

// from visits all that is joined to a node.
func (w *walker) from(root int, f *forest) {
	w.enter(root, -1)
	for len(w.path) > 0 {
		v := w.path[len(w.path)-1]
		f.comp[v] = root
		if w.next[v] < w.first[v+1] {
			i := w.near[w.next[v]]
			w.next[v]++
			w.along(v, i)
			continue
		}
		w.path = w.path[:len(w.path)-1]
		if i := w.by[v]; i >= 0 {
			w.leave(v, w.edges[i].a+w.edges[i].b-v, f)
		}
	}
}

func (w *walker) enter(v, by int) {
	w.depth[v] = len(w.path) + 1
	w.low[v] = w.depth[v]
	w.by[v] = by
	w.path = append(w.path, v)
}

// along goes one edge on from a node.
func (w *walker) along(v, i int) {
	other := w.edges[i].a + w.edges[i].b - v
	switch {
	case i == w.by[v]:
	case w.depth[other] == 0:
		w.stack = append(w.stack, i)
		w.enter(other, i)
	case w.depth[other] < w.depth[v]:
		w.stack = append(w.stack, i)
		w.low[v] = min(w.low[v], w.depth[other])
	}
}

// leave goes back to a node's parent; if nothing below reaches above it, what
// was gone since is a block.
func (w *walker) leave(v, parent int, f *forest) {
	w.low[parent] = min(w.low[parent], w.low[v])
	if w.low[v] < w.depth[parent] {
		return
	}
	for k := len(w.stack) - 1; ; k-- {
		if w.stack[k] == w.by[v] {
			f.add(w.edges, w.stack[k:])
			w.stack = w.stack[:k]
			return
		}
	}
}

// add makes a block of edges.
func (f *forest) add(edges []edge, list []int) {
	s := &f.store
	edge0, node0 := len(s.edges), len(s.nodes)
	for _, i := range list {
		e := edges[i]
		s.edges = append(s.edges, e)
		for _, v := range [2]int{e.a, e.b} {
			at := f.seats[v]
			if len(at) > 0 && at[len(at)-1].block == len(f.blocks) {
				continue
			}
			f.seats[v] = append(at, seat{len(f.blocks), len(s.nodes) - node0})
			s.nodes = append(s.nodes, v)
		}
	}
	b := block{edges: slices.Clip(s.edges[edge0:]), nodes: slices.Clip(s.nodes[node0:])}
	b.hang, b.beyond = s.flow(len(b.nodes)), s.flow(len(b.nodes))
	f.blocks = append(f.blocks, b)
}

// top is a block's node nearest to the root.
func (f *forest) top(block int) int { return f.tops[block] }

// arrange lists the nodes from each part's root outwards.
func (f *forest) arrange() {
	for v := range f.up {
		f.up[v] = seat{-1, -1}
	}
	f.tops, f.order = make([]int, len(f.blocks)), make([]int, 0, len(f.up))
	var todo []int
	for root, comp := range f.comp {
		if comp == root {
			todo = append(todo, root)
		}
	}
	for len(todo) > 0 { // depth first, as the blocks were made: they lie so in memory
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		f.order = append(f.order, v)
		for _, s := range f.seats[v] {
			if s.block != f.up[v].block {
				todo = f.place(s.block, v, todo)
			}
		}
	}
}

// place hangs a block on its node nearest to the root.
func (f *forest) place(block, top int, todo []int) []int {
	f.tops[block] = top
	for at, u := range f.blocks[block].nodes {
		if u != top {
			f.up[u] = seat{block, at}
			todo = append(todo, u)
		}
	}
	return todo
}
