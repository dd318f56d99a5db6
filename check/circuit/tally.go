package circuit

import "math"

// smallShare of the net's largest current, and what a blocked diode leaks, are
// added to what a node's imbalance is measured against, so that rounding in a
// stub that carries nothing does not count.
const smallShare = 1e-6

// drop is the volts from place a to place c, in two parts.
func (w *work) drop(a, c int32) (hi, lo float64) { return w.volts[a].above(w.volts[c]) }

// above is x less y, in two parts. The rounding of the difference goes into the
// lesser (two-sum, Knuth): a source of microhms would make milliamperes of it.
func (x volts) above(y volts) (hi, lo float64) {
	hi = x.hi - y.hi
	back := x.hi - hi
	lo = (x.hi - (hi + back)) + (back - y.hi)
	return hi, lo + (x.lo - y.lo)
}

// tally sums at every place what leaves it at the present volts, and takes the
// slopes of all branches that are not straight.
func (w *work) tally() {
	w.clearSums()
	for i := range w.wires {
		r := &w.wires[i]
		x, y := w.volts[r.a], w.volts[r.c]
		w.carry(r.a, r.c, r.siemens*((x.hi-y.hi)+(x.lo-y.lo)))
	}
	for i := range w.curves {
		c := &w.curves[i]
		hi, lo := w.drop(c.a, c.c)
		c.amps, c.slope = w.follow(c, hi, lo)
		w.carry(c.a, c.c, c.amps)
	}
	for i := range w.ports {
		p := &w.ports[i]
		in, inLo := w.drop(p.a, p.c)
		out, outLo := w.drop(p.e, p.g)
		p.flow = w.convert(p, in+inLo, out, outLo)
		w.carry(p.a, p.c, p.flow.drawn)
		w.carry(p.e, p.g, -p.flow.given)
	}
	w.weigh()
}

func (w *work) clearSums() {
	clear(w.sums)
	w.largest = 0
}

func (w *work) carry(a, c int32, amps float64) {
	size := math.Abs(amps)
	from := &w.sums[a]
	from.amps += amps
	from.weight += size
	to := &w.sums[c]
	to.amps -= amps
	to.weight += size
	if size > w.largest {
		w.largest = size
	}
}

// follow is the law of a curve, or its light form.
func (w *work) follow(c *curve, hi, lo float64) (amps, slope float64) {
	if w.light && c.light != 0 {
		return c.light * (hi + lo), c.light
	}
	return c.law.at(hi, lo, w.leak)
}

func (w *work) convert(p *livePort, in, outHi, outLo float64) flow {
	if w.light {
		return p.port.light(in, outHi, outLo, w.greatest, p.withered)
	}
	return p.port.at(in, outHi, outLo, w.leak)
}

// weigh finds the worst imbalance.
func (w *work) weigh() {
	w.residual, w.worst = 0, 0
	floor := smallShare*w.largest + LeakSiemens*w.greatest
	if floor == 0 {
		return
	}
	for k, s := range w.sums {
		if r := math.Abs(s.amps) / (s.weight + floor); !(r <= w.residual) {
			w.residual, w.worst = r, k
		}
	}
}

// guess is a tally at 0 V with every branch straightened.
func (w *work) guess() {
	w.clearSums()
	for i := range w.curves {
		c := &w.curves[i]
		c.amps, c.slope = 0, LeakSiemens
		if !c.withered {
			c.amps, c.slope = c.law.straight(w.greatest)
		}
		w.carry(c.a, c.c, c.amps)
	}
	for i := range w.ports {
		p := &w.ports[i]
		p.flow = p.port.light(0, 0, 0, w.greatest, p.withered)
		w.carry(p.e, p.g, -p.flow.given)
	}
}
