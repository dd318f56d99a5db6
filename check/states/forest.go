package states

// edge is an element between two nodes that may carry current on.
type edge struct {
	element int32
	a, b    int32
	group   int32 // edges of one group that meet in a node are never closed together; 0 for none
	oneWay  bool  // from a to b alone
}

// forest is a graph as blocks that meet in nodes: a tree for each connected part.
// A block is a part of a graph that no single node cuts in two: one edge, or the
// edges of loops.
//
// It is gone through again and again, up and down, and is larger than what the
// processor keeps near. So nodes have numbers of its own, their ranks, by which
// each comes before those beyond it, and what is kept of them and of their seats
// lies in the order in which it is asked for.
type forest struct {
	ranks  []int32 // by node
	nodes  []int32 // by rank
	comp   []int32 // by node: its connected part, as the node that it begins with
	first  []int32 // by rank, and one more: where its seats begin
	seats  []seat
	up     []int32 // by rank: its seat in the block towards the root; none at roots
	loops  []*block
	hang   []flows // by seat: what lies on its side without its block
	beyond []flows // by seat: what lies on the other side of the block
	own    []flows // by rank: what the nodes give and take themselves
	around []flows // by rank: the same, and all beyond their blocks
}

// none is no seat.
const none = int32(-1)

// seat is a block's place at a node.
type seat struct {
	node    int32 // its rank
	other   int32 // of one edge: the seat at its other end; of loops: see loop
	element int32 // of one edge; of loops: which of the block's nodes it is
	group   int32 // of one edge
	from    bool  // of one edge: it is at a
	oneWay  bool  // of one edge
}

// loop is the number of the block of loops that the seat is in, below 0 of an edge.
func (s *seat) loop() int32 { return -2 - s.other }

// far is the rank at the other end of an edge.
func (f *forest) far(q int32) int32 { return f.seats[f.seats[q].other].node }

// top is the node, by rank, that a node hangs on through one block; none at roots.
func (f *forest) top(rank int) int32 {
	up := f.up[rank]
	if up == none {
		return none
	}
	s := &f.seats[up]
	if s.other >= 0 {
		return f.seats[s.other].node
	}
	top := f.seats[f.loops[s.loop()].seats[0]].node
	for _, q := range f.loops[s.loop()].seats {
		top = min(top, f.seats[q].node) // ranks grow from the root outwards
	}
	return top
}

// block is a block of loops. Beyond each of its nodes hangs what is joined to it
// there.
type block struct {
	edges  []edge
	nodes  []int32
	seats  []int32       // by node
	hang   []flows       // by node: see fetch
	states [][]*loopPart // what hangs together in each state of its contacts: see looped
	shares [][]float64   // by edge and node, once worked out: see meshed
}

// open makes room for what flows.
func (f *forest) open() {
	nodes, seats := len(f.nodes), len(f.seats)
	f.hang, f.beyond = make([]flows, seats), make([]flows, seats)
	f.own, f.around = make([]flows, nodes), make([]flows, nodes)
}

// fetch takes over what hangs on the nodes.
func (f *forest) fetch(b *block) {
	for k, q := range b.seats {
		b.hang[k] = f.hang[q]
	}
}

// flows are the greatest currents that a side can give and take.
type flows struct{ gives, takes float64 }

func (f flows) plus(g flows) flows  { return flows{f.gives + g.gives, f.takes + g.takes} }
func (f flows) minus(g flows) flows { return flows{max(0, f.gives-g.gives), max(0, f.takes-g.takes)} }
func (f flows) most(g flows) flows  { return flows{max(f.gives, g.gives), max(f.takes, g.takes)} }

// forget drops what hangs on temperature.
func (f *forest) forget() {
	for _, b := range f.loops {
		b.states, b.shares = nil, nil
	}
}
