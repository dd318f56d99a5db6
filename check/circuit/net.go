package circuit

import (
	"slices"
	"sort"
)

// Net is a compiled network: what does not change from one solve to the next.
// It is safe for use by many goroutines.
type Net struct {
	place         []int32   // by node: its place in the elimination order
	first, second []int32   // by branch: the places of its ends
	slot          []int32   // by branch: the entry between its ends, or none
	ends          [][2]Node // by branch
	rows          pattern
	plan          plan
	converters    []ports
	references    []int32 // places
	curved        int     // branches that are no resistances
}

// pattern is the upper half of the matrix after fill, by rows: the columns of
// row k are cols[start[k]:start[k+1]], ascending and all above k.
type pattern struct {
	start, cols []int32
}

// plan is what a State may override, each by branch: whether it is on, its
// conductance if it is a resistance, its law otherwise.
type plan struct {
	on      []bool
	siemens []float64
	laws    []law
}

// Compile fixes the elimination order. The builder may go on to be used; the
// Net does not see later additions.
func (b *Builder) Compile() *Net {
	order, rows := minimumDegree(b.neighbours())
	n := &Net{
		place:      make([]int32, b.nodes),
		ends:       slices.Clip(b.ends), // the builder only ever adds behind
		converters: slices.Clone(b.converters),
		plan: plan{
			on:      slices.Clip(b.plan.on),
			siemens: slices.Clip(b.plan.siemens),
			laws:    slices.Clip(b.plan.laws),
		},
	}
	for k, v := range order {
		n.place[v] = int32(k)
	}
	n.rows = newPattern(rows, n.place)
	for _, r := range b.references {
		n.references = append(n.references, n.place[r])
	}
	for _, l := range n.plan.laws {
		if l != nil {
			n.curved++
		}
	}
	n.attach(b.ends)
	return n
}

// Nodes is the number of nodes.
func (n *Net) Nodes() int { return len(n.place) }

// Branches is the number of branches.
func (n *Net) Branches() int { return len(n.slot) }

// attach finds each branch's entry in the matrix.
func (n *Net) attach(ends [][2]Node) {
	n.first, n.second = make([]int32, len(ends)), make([]int32, len(ends))
	n.slot = make([]int32, len(ends))
	for i, e := range ends {
		a, c := n.place[e[0]], n.place[e[1]]
		n.first[i], n.second[i] = a, c
		n.slot[i] = n.rows.find(a, c)
	}
}

// neighbours lists each node's neighbours once, ascending.
func (b *Builder) neighbours() [][]int32 {
	near := make([][]int32, b.nodes)
	join := func(a, c Node) {
		if a != c {
			near[a] = append(near[a], int32(c))
			near[c] = append(near[c], int32(a))
		}
	}
	for _, e := range b.ends {
		join(e[0], e[1])
	}
	for _, c := range b.converters { // its amperes depend on all four
		in, out := b.ends[c.in], b.ends[c.out]
		join(in[0], out[0])
		join(in[0], out[1])
		join(in[1], out[0])
		join(in[1], out[1])
	}
	for v := range near {
		slices.Sort(near[v])
		near[v] = slices.Compact(near[v])
	}
	return near
}

// newPattern renumbers rows of nodes, given in elimination order, by place.
func newPattern(rows [][]int32, place []int32) pattern {
	p := pattern{start: make([]int32, 1, len(rows)+1)}
	for _, row := range rows {
		from := len(p.cols)
		for _, v := range row {
			p.cols = append(p.cols, place[v])
		}
		slices.Sort(p.cols[from:])
		p.start = append(p.start, int32(len(p.cols)))
	}
	return p
}

// find returns the entry between two places, or none if they are the same.
func (p pattern) find(a, c int32) int32 {
	if a == c {
		return none
	}
	row := min(a, c)
	cols := p.cols[p.start[row]:p.start[row+1]]
	col := max(a, c)
	i := sort.Search(len(cols), func(i int) bool { return cols[i] >= col })
	return p.start[row] + int32(i)
}
