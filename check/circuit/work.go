package circuit

import "math"

// work is the memory of one state's solves.
type work struct {
	net     *Net
	islands islands
	alive   []bool // by place: in an island with a source
	fixed   []bool // by place: held at 0 V, as a reference or for want of a source

	live    []bool // by branch: on, and in an island with a source
	wires   []wire
	curves  []curve
	ports   []livePort
	baseUp  []float64 // what the resistances alone put into the matrix
	base    []float64
	factors factors
	sound   bool  // factors belong to the slopes that are stamped
	clipped bool  // falling slopes were left out of them
	tip     int32 // if so, the place that is not stable with them
	plain   bool  // they never were since the start

	volts   []volts   // by place
	sums    []sum     // by place
	step    []float64 // by place
	longest float64   // way of any node in the step
	largest float64   // current of any branch

	reach      float64 // sum of the magnitudes of the source volts
	greatest   float64 // of them
	leak       float64
	light      bool
	residual   float64
	worst      int
	moved      float64 // longest way of any node in the last step, in volts
	before     float64 // and in the one before
	iterations int
}

// volts are in two parts: a figure and its rounding remainder.
type volts struct{ hi, lo float64 }

// sum is what leaves a place, 0 at the solution, and the magnitudes of it.
type sum struct{ amps, weight float64 }

// wire is a live resistance.
type wire struct {
	siemens            float64
	branch, a, c, slot int32
}

// curve is a live branch that is no resistance.
type curve struct {
	law             law
	branch, a, c    int32
	slot            int32
	light           float64 // see law
	withered        bool    // a diode that is blocked in the first guess
	amps, slope     float64
	stamped         float64 // the slope that the factors were made with
	atHi, atLo, way float64 // for the search: volts, and volts per step
}

// livePort is a live converter; a and c are the input's places, e and g the
// output's.
type livePort struct {
	port
	ports
	a, c, e, g int32
	flow       flow
	stamped    flow
	withered   bool // its input is dead in the first guess
}

func newWork(n *Net) *work {
	places, branches := len(n.place), len(n.slot)
	return &work{
		net: n, islands: newIslands(places),
		alive: make([]bool, places), fixed: make([]bool, places),
		live: make([]bool, branches), wires: make([]wire, 0, branches-n.curved), curves: make([]curve, 0, n.curved),
		baseUp: make([]float64, len(n.rows.cols)), base: make([]float64, places),
		factors: newFactors(n.rows),
		volts:   make([]volts, places), sums: make([]sum, places), step: make([]float64, places),
	}
}

// survey finds what is live in a plan, and what is 0 V.
func (w *work) survey(p *plan) {
	w.islands.settle(w.net, p)
	for k := range w.alive {
		r := w.islands.root(int32(k))
		w.alive[k] = w.islands.live[r]
		w.fixed[k] = !w.alive[k] || w.islands.ground[r] == int32(k)
	}
	for b, on := range p.on {
		w.live[b] = on && w.alive[w.net.first[b]]
	}
	for _, c := range w.net.converters { // one side gives though the other is dead
		if p.converts(c) && (w.alive[w.net.first[c.in]] || w.alive[w.net.first[c.out]]) {
			w.live[c.in], w.live[c.out] = true, true
		}
	}
}

// prepare takes a plan in once it is surveyed: its branches, and the fixed part
// of the matrix.
func (w *work) prepare(p *plan) {
	clear(w.volts)
	n := w.net
	w.wires, w.curves, w.ports = w.wires[:0], w.curves[:0], w.ports[:0]
	for b, live := range w.live {
		if !live {
			continue
		}
		if l := p.laws[b]; l != nil {
			w.addCurve(b, l)
		} else {
			w.wires = append(w.wires, wire{p.siemens[b], int32(b), n.first[b], n.second[b], n.slot[b]})
		}
	}
	w.addPorts(p)
	w.measure()
	w.stampBase()
	w.sound, w.plain, w.iterations = false, true, 0
}

func (w *work) addCurve(b int, l law) {
	if isPort(l) {
		return
	}
	n := w.net
	w.curves = append(w.curves, curve{law: l, branch: int32(b), a: n.first[b], c: n.second[b], slot: n.slot[b]})
}

func (w *work) addPorts(p *plan) {
	n := w.net
	for _, c := range n.converters {
		if !p.converts(c) || !w.alive[n.first[c.in]] && !w.alive[n.first[c.out]] {
			continue
		}
		w.ports = append(w.ports, livePort{
			port: p.laws[c.in].(inPort).port, ports: c,
			a: n.first[c.in], c: n.second[c.in], e: n.first[c.out], g: n.second[c.out],
		})
	}
}

// measure finds how far volts can reach, and the light form of each load.
func (w *work) measure() {
	w.reach, w.greatest = 0, 0
	count := func(volts float64) {
		w.reach += volts
		w.greatest = math.Max(w.greatest, volts)
	}
	for _, c := range w.curves {
		if s, ok := c.law.(sourceLaw); ok {
			count(math.Abs(s.volts))
		}
	}
	for _, p := range w.ports {
		count(p.volts)
	}
	for i := range w.curves {
		w.curves[i].light = w.curves[i].law.light(w.greatest)
	}
}

func (w *work) stampBase() {
	clear(w.base)
	clear(w.baseUp)
	for i := range w.wires {
		r := &w.wires[i]
		w.bond(w.baseUp, w.base, r.a, r.c, r.slot, r.siemens)
	}
}

// bond puts a conductance between two places into half a matrix.
func (w *work) bond(up, self []float64, a, c, slot int32, g float64) {
	switch {
	case slot == none || w.fixed[a] && w.fixed[c]:
	case w.fixed[a]:
		self[c] += g
	case w.fixed[c]:
		self[a] += g
	default:
		up[slot] += g
	}
}
