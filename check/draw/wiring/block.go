package wiring

import (
	"hame/check/draw/layered"
	"hame/check/draw/symbols"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// node is what stands in a column: a box, or a flag at which a wire ends that goes
// on elsewhere.
type node struct {
	box   *box
	flag  *flag
	plan  *symbols.Plan
	layer int
	lefts []*landing // those at its left edge, and at its right
	right []*landing
}

// loose reports whether the rows of a node may spread.
func (n *node) loose() bool {
	return n.box != nil && (n.plan.Bar() || n.box.device.Is(kinds.Protection, "panel") || n.box.device.Is(kinds.Join, "connector"))
}

// bar reports whether it takes wires at both sides alike.
func (n *node) bar() bool { return n.box != nil && single(n.box.device) }

// landing is one end of a drawn wire.
type landing struct {
	node     *node
	terminal *harness.Terminal // nil at a flag
	row      int
	right    bool
	offMM    float64
	baseMM   float64 // where its terminal is, below its row
}

// run is a wire as it is drawn on one sheet, or a bond of a ground point to its
// chassis, which has no wire.
type run struct {
	wire *harness.Wire
	bond *box
	ends [2]*landing
}

// block is a part of a sheet that is laid out by itself.
type block struct {
	nodes  []*node
	runs   []*run
	layout *layered.Layout
	at     map[*box]*node
}

func newBlock() *block { return &block{at: map[*box]*node{}} }

// put stands a box in the block.
func (k *block) put(s *scheme, b *box, words symbols.Words) {
	d := b.device
	p := symbols.New(d.Kind, wayed{d, b}, words)
	if b.part > 1 { // its feed stands at the first part
		p.Rows[1].UpMM = p.Rows[0].UpMM
		p.Rows = p.Rows[1:]
	}
	if b.flipped {
		p.Flip()
	}
	n := &node{box: b, plan: p}
	k.at[b] = n
	k.nodes = append(k.nodes, n)
}

// wayed is a panel of which some ways are drawn.
type wayed struct {
	*harness.Device
	box *box
}

// Given leaves out the ways of the panel's other parts.
func (w wayed) Given(setting string) []kinds.Args {
	list := w.Device.Given(setting)
	if setting != "way" || w.box.part == 0 {
		return list
	}
	own := map[string]bool{}
	for _, t := range w.box.ways {
		own[t.Name] = true
	}
	var kept []kinds.Args
	for _, a := range list {
		if own[a.RepeatKey()] {
			kept = append(kept, a)
		}
	}
	return kept
}

// end is where an end of a wire lands in the block: on its box, or on a flag.
func (k *block) end(s *scheme, t *harness.Terminal, f *flag) *landing {
	if f != nil {
		n := &node{flag: f}
		k.nodes = append(k.nodes, n)
		return &landing{node: n, right: f.right}
	}
	n := k.at[s.of[t]]
	l := &landing{node: n, terminal: t}
	for i, r := range n.plan.Rows {
		switch {
		case n.bar():
		case r.HasLeft && r.Left == t.Name:
			l.row, l.right = i, false
		case r.HasRight && r.Right == t.Name:
			l.row, l.right = i, true
		}
	}
	return l
}

// lay lays the block out.
func (k *block) lay(s *scheme) {
	k.rank(s)
	k.land()
	g := &layered.Graph{}
	index := map[*node]int{}
	for i, n := range k.nodes {
		index[n] = i
		g.Nodes = append(g.Nodes, n.layered())
	}
	for _, r := range k.runs {
		w := layered.Wire{LabelMM: r.label(s).wide()}
		for i, e := range r.ends {
			w.Ends[i] = layered.End{Node: index[e.node], Row: e.row, Right: e.right, OffsetMM: e.offMM, Pool: e.pool()}
		}
		g.Wires = append(g.Wires, w)
	}
	k.layout = layered.Lay(g)
	for i, r := range k.runs {
		for j, e := range r.ends {
			e.row, e.offMM = k.layout.Ends[i][j].Row, k.layout.Ends[i][j].OffsetMM
		}
	}
}

// pool: wires on one terminal may change places.
func (l *landing) pool() int {
	if l.terminal == nil {
		return 0
	}
	return l.terminal.Index + 1
}

// pitchMM is from one wire to the next on a terminal that takes several.
const pitchMM = 4

// land gives every end its row and its place on it, and the rows their room.
func (k *block) land() {
	for _, r := range k.runs {
		for _, e := range r.ends {
			if e.right {
				e.node.right = append(e.node.right, e)
			} else {
				e.node.lefts = append(e.node.lefts, e)
			}
		}
	}
	for _, n := range k.nodes {
		if n.bar() {
			n.spread()
			continue
		}
		for _, side := range [][]*landing{n.lefts, n.right} {
			n.stack(side)
		}
		if n.plan != nil && !n.loose() {
			n.stiffen()
		}
	}
}

// spread gives a bar a row for each wire; the side that has fewer takes the middle.
func (n *node) spread() {
	rows := max(1, len(n.lefts), len(n.right))
	n.plan.Spread(rows)
	for _, side := range [][]*landing{n.lefts, n.right} {
		for i, e := range side {
			e.row = (rows-len(side))/2 + i
		}
	}
}

// stack puts the wires of one terminal under each other.
func (n *node) stack(side []*landing) {
	count := map[int]int{}
	for _, e := range side {
		e.offMM = pitchMM * float64(count[e.row])
		count[e.row]++
		if n.plan != nil && count[e.row] > 1 {
			r := &n.plan.Rows[e.row]
			r.DownMM = max(r.DownMM, e.offMM+2)
		}
	}
}

// stiffen turns rows into places on the first one.
func (n *node) stiffen() {
	y := n.plan.Close()
	for _, side := range [][]*landing{n.lefts, n.right} {
		for _, e := range side {
			e.baseMM = y[e.row] - y[0]
			e.offMM += e.baseMM
			e.row = 0
		}
	}
}

// layered is the node as the layout knows it.
func (n *node) layered() layered.Node {
	if n.flag != nil {
		return n.flag.layered(n.layer)
	}
	out := layered.Node{Layer: n.layer, WidthMM: n.plan.WidthMM}
	if !n.loose() {
		y, last := n.plan.Close(), len(n.plan.Rows)-1
		out.Rows = []layered.Row{{UpMM: n.plan.Rows[0].UpMM, DownMM: y[last] - y[0] + n.plan.Rows[last].DownMM}}
		return out
	}
	for _, r := range n.plan.Rows {
		out.Rows = append(out.Rows, layered.Row{UpMM: r.UpMM, DownMM: r.DownMM})
	}
	return out
}
