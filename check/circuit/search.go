package circuit

import "math"

// advance goes along the step as far as is good. The measure is the work done
// against the imbalance on the way: negative at the start, 0 where the step
// has done what it can. On a network without converters it is the slope of the
// co-content, so going to its zero never climbs.
func (w *work) advance() {
	start, longest := w.effort(), w.longest
	far := 1.0
	if longest > 2*w.reach {
		far = 2 * w.reach / longest
	}
	w.shift(far)
	w.tally()
	w.moved = far * longest
	if w.residual <= proven || w.effort() <= math.Abs(start)/2 {
		return
	}
	w.shift(-far)
	t := w.search(far, start)
	w.shift(t)
	w.tally()
	w.moved = t * longest
}

// effort is the step's work at the present volts, in watts.
func (w *work) effort() float64 {
	sum := 0.0
	for k, step := range w.step {
		sum += w.sums[k].amps * step
	}
	return sum
}

// furthest is the greatest magnitude. As with math.Max what is infinite goes
// before what is no number; comparing is many times faster than that.
func furthest(list []float64) float64 {
	most, wild := 0.0, false
	for _, v := range list {
		if size := math.Abs(v); size > most {
			most = size
		} else if size != size {
			wild = true
		}
	}
	if wild && !math.IsInf(most, 1) {
		return math.NaN()
	}
	return most
}

// shift moves the volts by t steps and keeps the rounding remainder.
func (w *work) shift(t float64) {
	for k, v := range w.step {
		at := &w.volts[k]
		lo := at.lo + t*v
		hi := at.hi + lo
		back := hi - at.hi
		at.lo = (at.hi - (hi - back)) + (lo - back)
		at.hi = hi
	}
}

// search finds the share of a step, up to far, at which its work is about 0.
func (w *work) search(far, start float64) float64 {
	still, rise := w.straightWork()
	w.aim()
	low, high := 0.0, far
	atLow, atHigh := start, still+rise*high+w.curvedWork(high)
	for try := 0; try < 80; try++ {
		t := (low + high) / 2
		if try%2 == 0 && atHigh > atLow {
			t = low - atLow*(high-low)/(atHigh-atLow)
		}
		at := still + rise*t + w.curvedWork(t)
		if math.Abs(at) <= 0.1*math.Abs(start) {
			return t
		}
		if at < 0 {
			low, atLow = t, at
		} else {
			high, atHigh = t, at
		}
	}
	return low
}

// straightWork is the resistances' work at the start of a step, and how much
// it grows over the whole of it.
func (w *work) straightWork() (still, rise float64) {
	for i := range w.wires {
		r := &w.wires[i]
		hi, lo := w.drop(r.a, r.c)
		way := w.step[r.a] - w.step[r.c]
		still += r.siemens * (hi + lo) * way
		rise += r.siemens * way * way
	}
	return still, rise
}

// aim notes where each curve stands and which way the step takes it.
func (w *work) aim() {
	for i := range w.curves {
		c := &w.curves[i]
		c.atHi, c.atLo = w.drop(c.a, c.c)
		c.way = w.step[c.a] - w.step[c.c]
	}
}

// curvedWork is the work of all that is no resistance at t steps.
func (w *work) curvedWork(t float64) float64 {
	sum := 0.0
	for i := range w.curves {
		c := &w.curves[i]
		amps, _ := w.follow(c, c.atHi+t*c.way, c.atLo)
		sum += amps * c.way
	}
	for i := range w.ports {
		p := &w.ports[i]
		inWay, outWay := w.step[p.a]-w.step[p.c], w.step[p.e]-w.step[p.g]
		in, inLo := w.drop(p.a, p.c)
		out, outLo := w.drop(p.e, p.g)
		f := w.convert(p, in+inLo+t*inWay, out+t*outWay, outLo)
		sum += f.drawn*inWay - f.given*outWay
	}
	return sum
}
