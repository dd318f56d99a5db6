package states

// walker goes through a graph depth first.
type walker struct {
	edges []edge
	first []int32 // by node, and one more: where its edges begin in near
	near  []int32 // edges by node
	next  []int32 // by node: the first of near that was not gone
	depth []int32 // by node: 0 where not visited
	low   []int32 // least depth that is reached from below a node without its own edge
	path  []int32 // nodes on the way from the root
	by    []int32 // by node: the edge that it was reached by
	stack []int32 // edges that were gone and belong to no block yet
}

func newWalker(nodes int, edges []edge) *walker {
	all := make([]int32, 5*nodes+1)
	w := &walker{
		edges: edges, first: all[:nodes+1], near: make([]int32, 2*len(edges)), next: all[nodes+1 : 2*nodes+1],
		depth: all[2*nodes+1 : 3*nodes+1], low: all[3*nodes+1 : 4*nodes+1], by: all[4*nodes+1:],
	}
	for i := range edges {
		w.first[edges[i].a]++
		w.first[edges[i].b]++
	}
	sum := int32(0)
	for v, n := range w.first {
		w.first[v] = sum
		sum += n
	}
	copy(w.next, w.first)
	for i := range edges {
		for _, v := range [2]int32{edges[i].a, edges[i].b} {
			w.near[w.next[v]] = int32(i)
			w.next[v]++
		}
	}
	copy(w.next, w.first)
	return w
}

// from visits all that is joined to a node.
func (w *walker) from(root int32, d *draft) {
	w.enter(root, none)
	for len(w.path) > 0 {
		v := w.path[len(w.path)-1]
		d.comp[v] = root
		if w.next[v] < w.first[v+1] {
			i := w.near[w.next[v]]
			w.next[v]++
			w.along(v, i)
			continue
		}
		w.path = w.path[:len(w.path)-1]
		if i := w.by[v]; i >= 0 {
			w.leave(v, w.edges[i].a+w.edges[i].b-v, d)
		}
	}
}

func (w *walker) enter(v, by int32) {
	w.depth[v] = int32(len(w.path)) + 1
	w.low[v] = w.depth[v]
	w.by[v] = by
	w.path = append(w.path, v)
}

// along goes one edge on from a node.
func (w *walker) along(v, i int32) {
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
func (w *walker) leave(v, parent int32, d *draft) {
	w.low[parent] = min(w.low[parent], w.low[v])
	if w.low[v] < w.depth[parent] {
		return
	}
	for k := len(w.stack) - 1; ; k-- {
		if w.stack[k] == w.by[v] {
			d.add(w.edges, w.stack[k:])
			w.stack = w.stack[:k]
			return
		}
	}
}
