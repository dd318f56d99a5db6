package circuit

import "math"

// alike is how little a slope may differ from the one in the factors for them
// to be used again.
const alike = 1e-5

// refactor makes the factors fit the slopes. Where the network is not stable
// at them it takes falling slopes for flat, which still leads downhill.
func (w *work) refactor() {
	if w.sound && w.current() {
		return
	}
	w.sound = true
	w.clipped = false
	w.stamp()
	if w.tip = w.factors.eliminate(w.fixed); w.tip != none {
		w.clip()
	}
}

// clip makes the factors again with falling slopes taken for flat.
func (w *work) clip() {
	w.clipped, w.plain = true, false
	w.stamp()
	w.factors.eliminate(w.fixed)
}

func (w *work) current() bool {
	for i := range w.curves {
		c := &w.curves[i]
		if !near(c.slope, c.stamped) {
			return false
		}
	}
	for i := range w.ports {
		f, s := &w.ports[i].flow, &w.ports[i].stamped
		if !near(f.drawnByIn, s.drawnByIn) || !near(f.drawnByOut, s.drawnByOut) ||
			!near(f.givenByIn, s.givenByIn) || !near(f.givenByOut, s.givenByOut) {
			return false
		}
	}
	return true
}

func near(x, y float64) bool { return math.Abs(x-y) <= alike*math.Abs(y) }

func (w *work) stamp() {
	f := &w.factors
	copy(f.up, w.baseUp)
	copy(f.low, w.baseUp)
	copy(f.self, w.base)
	for i := range w.curves {
		c := &w.curves[i]
		c.stamped = c.slope
		g := c.slope
		if w.clipped {
			g = math.Max(g, w.leak)
		}
		w.bond(f.up, f.self, c.a, c.c, c.slot, g)
		if c.slot != none && !w.fixed[c.a] && !w.fixed[c.c] {
			f.low[c.slot] += g
		}
	}
	for i := range w.ports {
		w.ports[i].stamped = w.ports[i].flow
		w.stampPort(&w.ports[i])
	}
}

func (w *work) stampPort(p *livePort) {
	f := p.flow
	if w.clipped { // both sides for themselves
		f.drawnByIn = math.Max(f.drawnByIn, w.leak)
		f.drawnByOut, f.givenByIn = 0, 0
	}
	w.couple(p.a, p.c, p.a, p.c, f.drawnByIn)
	w.couple(p.a, p.c, p.e, p.g, f.drawnByOut)
	w.couple(p.e, p.g, p.a, p.c, -f.givenByIn)
	w.couple(p.e, p.g, p.e, p.g, -f.givenByOut)
}

// couple lets slope amperes flow from place from to place to for each volt
// that pos lies above neg.
func (w *work) couple(from, to, pos, neg int32, slope float64) {
	if slope != 0 && from != to && pos != neg {
		w.lean(from, pos, neg, slope)
		w.lean(to, pos, neg, -slope)
	}
}

func (w *work) lean(row, pos, neg int32, slope float64) {
	f := &w.factors
	if w.fixed[row] {
		return
	}
	if !w.fixed[pos] && pos != row {
		*f.entry(row, pos) -= slope
	}
	if !w.fixed[neg] && neg != row {
		*f.entry(row, neg) += slope
	}
	if w.fixed[pos] && !w.fixed[neg] {
		f.self[row] -= slope
	}
	if w.fixed[neg] && !w.fixed[pos] {
		f.self[row] += slope
	}
}

// entry is where the amperes of place row lean on place col.
func (f *factors) entry(row, col int32) *float64 {
	slot := f.rows.find(row, col)
	if row < col {
		return &f.up[slot]
	}
	return &f.low[slot]
}
