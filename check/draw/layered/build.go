package layered

// item is what stands in a layer: a box, or the lane of a wire that passes.
type item struct {
	node  int // -1 of a lane
	rows  []row
	place float64 // in its layer: the order from above
	// left and right are the segments in the channels at its two sides.
	left, right []*segment
}

func (i *item) lane() bool { return i.node < 0 }

// row is a row with its height.
type row struct{ up, down, y float64 }

// pin is where a segment ends: on a row of an item, which stands at the right of
// the channel or at its left.
type pin struct {
	item *item
	row  int
	off  float64
	far  bool // the item stands at the right of the channel
	pool int  // with which it may change places
}

func (p *pin) y() float64 { return p.item.rows[p.row].y + p.off }

// key orders the pins at one side of a channel.
func (p *pin) key() float64 {
	const rowShare, offShare = 1e-5, 1e-10
	return p.item.place + rowShare*float64(p.row) + offShare*p.off
}

// segment is the stretch of a wire in one channel.
type segment struct {
	wire int
	pins [2]pin // towards the wire's ends, in order
	// tracks are the places of its turns; none where it runs straight.
	tracks []turn
}

// other is the pin at the segment's other end.
func (s *segment) other(i *item) *pin {
	if s.pins[0].item == i {
		return &s.pins[1]
	}
	return &s.pins[0]
}

// sketch is a layout in the making. Channel c lies at the left of layer c; the
// last lies at the right of all.
type sketch struct {
	graph    *Graph
	boxes    []*item
	layers   [][]*item
	channels [][]*segment
	runs     [][]*segment // by wire, from its first end
	turned   []bool       // the wire's second end lies before its first
	pools    [][]*pin     // those that may change places
	mates    [][]*pin     // and the other pins of their segments
	// where layers and tracks begin, once routed
	layerX, layerWide []float64
	channelX          []float64
	zones             []zone
	crossings, bends  int
	uncounted         int
}

func build(g *Graph) *sketch {
	s := &sketch{graph: g, runs: make([][]*segment, len(g.Wires)), turned: make([]bool, len(g.Wires))}
	layers := 1
	for _, n := range g.Nodes {
		layers = max(layers, n.Layer+1)
	}
	s.layers = make([][]*item, layers)
	s.channels = make([][]*segment, layers+1)
	s.layerWide = make([]float64, layers)
	for i, n := range g.Nodes {
		it := &item{node: i}
		for _, r := range n.Rows {
			it.rows = append(it.rows, row{up: r.UpMM, down: r.DownMM})
		}
		s.boxes = append(s.boxes, it)
		s.layers[n.Layer] = append(s.layers[n.Layer], it)
		s.layerWide[n.Layer] = max(s.layerWide[n.Layer], n.WidthMM)
	}
	for w := range g.Wires {
		s.thread(w)
	}
	s.number()
	s.gather()
	return s
}

// channel is the one that an end opens on.
func (s *sketch) channel(e End) int {
	c := s.graph.Nodes[e.Node].Layer
	if e.Right {
		c++
	}
	return c
}

func (s *sketch) pin(e End) pin {
	return pin{item: s.boxes[e.Node], row: e.Row, off: e.OffsetMM, far: !e.Right, pool: e.Pool}
}

// laneMM is the room of a lane above and below its wire.
const laneMM = 2

// thread leads a wire through the channels, with a lane in each layer between.
func (s *sketch) thread(w int) {
	ends := s.graph.Wires[w].Ends
	if s.channel(ends[0]) > s.channel(ends[1]) {
		ends[0], ends[1] = ends[1], ends[0]
		s.turned[w] = true
	}
	at := s.pin(ends[0])
	last := s.channel(ends[1])
	for c := s.channel(ends[0]); c < last; c++ {
		lane := &item{node: -1, rows: []row{{up: laneMM, down: laneMM}}}
		s.layers[c] = append(s.layers[c], lane)
		s.segment(w, c, at, pin{item: lane, far: true})
		at = pin{item: lane}
	}
	s.segment(w, last, at, s.pin(ends[1]))
}

func (s *sketch) segment(w, c int, a, b pin) {
	g := &segment{wire: w, pins: [2]pin{a, b}}
	s.channels[c] = append(s.channels[c], g)
	s.runs[w] = append(s.runs[w], g)
	for i := range g.pins {
		it := g.pins[i].item
		switch {
		case i == 1 && it == g.pins[0].item && g.pins[1].far == g.pins[0].far:
		case g.pins[i].far:
			it.left = append(it.left, g)
		default:
			it.right = append(it.right, g)
		}
	}
}

// number gives the items of every layer their places in order.
func (s *sketch) number() {
	for _, layer := range s.layers {
		renumber(layer)
	}
}

func renumber(layer []*item) {
	for i, it := range layer {
		it.place = float64(i)
	}
}
