package circuit

import "math"

const (
	proven    = 1e-9  // greatest relative imbalance of an answer
	wanted    = 1e-12 // imbalance that is iterated for
	unmoved   = 1e-11 // and the last step, as a share of the source volts
	spent     = 1e-6  // the same for a last step that is no shorter than the one before
	rough     = 1e-3  // imbalance at which the first guess is good enough
	wildShare = 1e15  // share of the source volts at which a step is of no use
	rounds    = 60    // Newton steps before another way is tried
	nudges    = 3     // times that a point of unstable balance is left
)

// Solve finds the operating point of s, which must be a state of n. The error
// is a [*CollapseError] when no steady point is found.
//
// A load that its feed cannot hold up has no point at constant power; it falls
// below its knee and the answer is the point of low voltage there, with the
// load named by [Point.Sagging]. That is an answer and not an error: a harness
// that starves a lamp still has voltages, and they are what a reader wants to
// see. An error means that Newton's method found no point at all; it has been
// seen only where converters feed themselves or one another.
func (n *Net) Solve(s *State) (*Point, error) {
	w := s.survey()
	return w.solve(&s.plan)
}

func (w *work) solve(p *plan) (*Point, error) {
	w.prepare(p)
	w.start()
	if !w.settle() && !w.approach() {
		return nil, w.collapse()
	}
	return w.point(), nil
}

// start finds a first guess: all branches straight, then the true sources and
// diodes with light loads.
func (w *work) start() {
	w.leak, w.light = LeakSiemens, true
	for again := true; again; again = w.wither() {
		w.guess()
		w.refactor()
		w.newStep()
		clear(w.volts)
		w.shift(1)
	}
	w.tally()
	for w.residual > rough && w.iterations < rounds {
		w.newton()
	}
	w.light = false
	w.moved = math.Inf(1)
	w.tally()
}

// wither blocks, for the next guess, diodes that this one drives backwards or,
// once there are none, converters whose input it leaves dead. It tells whether
// there were any: what they feed may be dead then too.
func (w *work) wither() bool {
	any := w.witherDiodes() || w.witherPorts()
	if any {
		w.sound = false
	}
	return any
}

func (w *work) witherDiodes() bool {
	any := false
	for i := range w.curves {
		c := &w.curves[i]
		if _, ok := c.law.(diodeLaw); !ok || c.withered {
			continue
		}
		hi, lo := w.drop(c.a, c.c)
		c.withered = c.amps+c.slope*(hi+lo) < 0
		any = any || c.withered
	}
	return any
}

func (w *work) witherPorts() bool {
	any := false
	for i := range w.ports {
		p := &w.ports[i]
		if p.withered {
			continue
		}
		hi, lo := w.drop(p.a, p.c)
		p.withered = hi+lo < p.knee/2
		any = any || p.withered
	}
	return any
}

// settle iterates until nothing moves, and leaves points of unstable balance.
func (w *work) settle() bool {
	for try := 0; ; try++ {
		for round := 0; round < rounds && !w.done(); round++ {
			w.newton()
		}
		if w.tip == none || try == nudges || w.residual > proven {
			return w.residual <= proven
		}
		w.nudge()
	}
}

// done tells whether the answer is good, or as good as it will get: what hangs
// on leaks alone wanders by microvolts with the rounding of large currents.
func (w *work) done() bool {
	if w.residual <= wanted && w.moved <= unmoved*w.reach {
		return true
	}
	return w.residual <= proven && w.moved <= spent*w.reach && w.moved >= w.before/2
}

// newton goes one step.
func (w *work) newton() {
	w.iterations++
	w.before = w.moved
	w.refactor()
	w.newStep()
	if !w.clipped && !(w.longest < wildShare*w.reach) {
		w.clip()
		w.newStep()
	}
	w.advance()
}

// newStep solves for the step at the present volts.
func (w *work) newStep() {
	for k := range w.sums {
		w.step[k] = -w.sums[k].amps
		if w.fixed[k] {
			w.step[k] = 0
		}
	}
	w.factors.solve(w.step)
	w.longest = furthest(w.step)
}

// nudge leaves an unstable balance, such as two regulated lamps in series that
// share the volts like a pencil on its tip: one must take more.
func (w *work) nudge() {
	w.volts[w.tip].hi += 0.01 * w.greatest
	w.moved, w.sound = math.Inf(1), false
	w.tally()
}

// approach is the way round for hard networks: leaks of a siemens make any
// network easy, and they are taken away tenfold at a time.
func (w *work) approach() bool {
	w.plain = false
	clear(w.volts)
	for w.leak = 1; w.leak > LeakSiemens; w.leak /= 10 {
		w.tally()
		for round := 0; round < rounds && w.residual > proven; round++ {
			w.newton()
		}
	}
	w.leak, w.moved = LeakSiemens, math.Inf(1)
	w.tally()
	return w.settle()
}

// collapse names what stands at the node that would not balance, or all
// converters where only resistances do: it is they that unsettle a network.
func (w *work) collapse() error {
	e := &CollapseError{Residual: w.residual, Iterations: w.iterations}
	k := int32(w.worst)
	for i := range w.curves {
		c := &w.curves[i]
		if c.a == k || c.c == k {
			e.Branches = append(e.Branches, Branch(c.branch))
		}
	}
	nowhere := len(e.Branches) == 0
	for _, p := range w.ports {
		if nowhere || p.a == k || p.c == k || p.e == k || p.g == k {
			e.Branches = append(e.Branches, p.in, p.out)
		}
	}
	return e
}
