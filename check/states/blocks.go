package states

// draft is a forest while its blocks are found. What stands at one node of one
// block is a spot; a block's spots follow each other.
type draft struct {
	edges  []edge  // of all blocks
	spots  []int32 // nodes
	cuts   []cut   // by block, and one more
	block  []int32 // by spot
	comp   []int32 // by node
	latest []int32 // by node: 1 and the latest block that it is in
	first  []int32 // by node, and one more: where its spots begin in at
	at     []int32 // spots, by node in the order of the blocks
	order  []int32 // nodes, each before those beyond it, and what hangs together side by side
	up     []int32 // by node: its spot in the block towards the root
}

// cut is where a block's edges and spots begin.
type cut struct{ edge, spot int32 }

// newDraft makes room for a graph's blocks. One of k edges has at most k+1 nodes,
// which are 2k at most.
func newDraft(nodes, edges int) *draft {
	all := make([]int32, 4*edges)
	return &draft{
		edges: make([]edge, 0, edges), cuts: make([]cut, 0, edges+1),
		spots: all[: 0 : 2*edges], block: all[2*edges : 2*edges],
		comp: make([]int32, nodes), latest: make([]int32, nodes), first: make([]int32, nodes+1),
		order: make([]int32, 0, nodes), up: make([]int32, nodes),
	}
}

// newForest splits a graph into blocks (Hopcroft and Tarjan 1973, from memory).
func newForest(nodes int, edges []edge) *forest {
	d, w := newDraft(nodes, len(edges)), newWalker(nodes, edges)
	for v := range nodes {
		if w.depth[v] == 0 {
			w.from(int32(v), d)
		}
	}
	d.cuts = append(d.cuts, cut{int32(len(d.edges)), int32(len(d.spots))})
	d.list()
	d.arrange()
	return d.forest()
}

// add makes a block of edges.
func (d *draft) add(edges []edge, list []int32) {
	block := int32(len(d.cuts))
	d.cuts = append(d.cuts, cut{int32(len(d.edges)), int32(len(d.spots))})
	for _, i := range list {
		e := edges[i]
		d.edges = append(d.edges, e)
		for _, v := range [2]int32{e.a, e.b} {
			if d.latest[v] != block+1 {
				d.latest[v] = block + 1
				d.spots, d.block = append(d.spots, v), append(d.block, block)
			}
		}
	}
}

// list lists the spots of every node.
func (d *draft) list() {
	for _, v := range d.spots {
		d.first[v+1]++
	}
	for v := range d.comp {
		d.first[v+1] += d.first[v]
	}
	d.at = make([]int32, len(d.spots))
	next := d.latest
	copy(next, d.first)
	for s, v := range d.spots {
		d.at[next[v]] = int32(s)
		next[v]++
	}
}

// arrange lists the nodes from each part's root outwards.
func (d *draft) arrange() {
	var todo []int32
	for root, comp := range d.comp {
		d.up[root] = none
		if int(comp) == root {
			todo = append(todo, comp)
		}
	}
	for len(todo) > 0 { // depth first, as the blocks were made: they lie so in memory
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		d.order = append(d.order, v)
		for _, s := range d.at[d.first[v]:d.first[v+1]] {
			if s != d.up[v] {
				todo = d.place(d.block[s], v, todo)
			}
		}
	}
}

// place hangs a block on its node nearest to the root.
func (d *draft) place(block, top int32, todo []int32) []int32 {
	for s := d.cuts[block].spot; s < d.cuts[block+1].spot; s++ {
		if v := d.spots[s]; v != top {
			d.up[v] = s
			todo = append(todo, v)
		}
	}
	return todo
}

// forest is the forest with its seats in the order of the ranks.
func (d *draft) forest() *forest {
	nodes, spots := len(d.comp), len(d.spots)
	f := &forest{
		nodes: d.order, comp: d.comp, ranks: make([]int32, nodes), up: make([]int32, nodes),
		first: make([]int32, 1, nodes+1), seats: make([]seat, spots),
	}
	seatOf, q := make([]int32, spots), int32(0)
	for r, v := range d.order {
		f.ranks[v], f.up[r] = int32(r), none
		for _, s := range d.at[d.first[v]:d.first[v+1]] {
			seatOf[s], f.seats[q].node = q, int32(r)
			if s == d.up[v] {
				f.up[r] = q
			}
			q++
		}
		f.first = append(f.first, q)
	}
	for k := range d.cuts[:len(d.cuts)-1] {
		f.fill(d, k, seatOf)
	}
	return f
}

// fill writes a block into its seats.
func (f *forest) fill(d *draft, k int, seatOf []int32) {
	from, to := d.cuts[k], d.cuts[k+1]
	seats := seatOf[from.spot:to.spot]
	edges := d.edges[from.edge:to.edge:to.edge]
	if len(edges) == 1 {
		e, a, b := edges[0], &f.seats[seats[0]], &f.seats[seats[1]]
		*a = seat{node: a.node, other: seats[1], element: e.element, group: e.group, from: true, oneWay: e.oneWay}
		*b = seat{node: b.node, other: seats[0], element: e.element, group: e.group, oneWay: e.oneWay}
		return
	}
	b := &block{edges: edges, nodes: d.spots[from.spot:to.spot:to.spot], seats: seats, hang: make([]flows, len(seats))}
	for at, q := range seats {
		f.seats[q].other, f.seats[q].element = int32(-2-len(f.loops)), int32(at)
	}
	f.loops = append(f.loops, b)
}
