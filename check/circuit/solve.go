package circuit

import "math"

const (
	proven  = 1e-9  // greatest relative imbalance of an answer
	wanted  = 1e-12 // imbalance that is iterated for
	unmoved = 1e-11 // and the last step, as a share of the source volts
	rough   = 1e-3  // imbalance at which the first guess is good enough
	rounds  = 60    // Newton steps before another way is tried
	nudges  = 3     // times that a point of unstable balance is left
)

// Solve finds the operating point of s, which must be a state of n. The error
// is a [*CollapseError] when no steady point is found.
//
// A load that its feed cannot hold up has no point at constant power; it falls
// below its knee and the answer is the point of low voltage there, with the
// load named by [Point.Sagging]. That is an answer and not an error: a harness
// that starves a lamp still has voltages, and they are what a reader wants to
// see. An error means that Newton's method found no point at all, which takes
// a network of converters that feed one another.
func (n *Net) Solve(s *State) (*Point, error) {
	if s.work == nil {
		s.work = newWork(n)
	}
	w := s.work
	w.prepare(&s.plan)
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
	w.guess()
	w.refactor()
	w.newStep()
	w.shift(1)
	w.tally()
	for w.residual > rough && w.iterations < rounds {
		w.newton()
	}
	w.light = false
	w.moved = math.Inf(1)
	w.tally()
}

// settle iterates until nothing moves, and leaves points of unstable balance.
func (w *work) settle() bool {
	for try := 0; ; try++ {
		for round := 0; round < rounds && !w.done(); round++ {
			w.newton()
		}
		if !w.clipped || try == nudges || w.residual > proven {
			return w.residual <= proven
		}
		w.nudge()
	}
}

func (w *work) done() bool {
	return w.residual <= wanted && w.moved <= unmoved*w.reach
}

// newton goes one step.
func (w *work) newton() {
	w.iterations++
	w.refactor()
	w.newStep()
	w.advance()
}

// newStep solves for the step at the present volts.
func (w *work) newStep() {
	for k, amps := range w.amps {
		w.step[k] = -amps
		if w.fixed[k] {
			w.step[k] = 0
		}
	}
	w.factors.solve(w.step)
}

// nudge leaves an unstable balance, such as two regulated lamps in series that
// share the volts like a pencil on its tip: one must take more.
func (w *work) nudge() {
	for i := range w.curves {
		c := &w.curves[i]
		if c.slope >= 0 {
			continue
		}
		k := c.a
		if w.fixed[k] {
			k = c.c
		}
		w.hi[k] += 0.01 * w.greatest / float64(i+1)
	}
	w.moved, w.sound = math.Inf(1), false
	w.tally()
}

// approach is the way round for hard networks: leaks of a siemens make any
// network easy, and they are taken away tenfold at a time.
func (w *work) approach() bool {
	clear(w.hi)
	clear(w.lo)
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

// collapse names what stands at the node that would not balance.
func (w *work) collapse() error {
	e := &CollapseError{Residual: w.residual, Iterations: w.iterations}
	k := int32(w.worst)
	for _, c := range w.curves {
		if c.a == k || c.c == k {
			e.Branches = append(e.Branches, c.branch)
		}
	}
	for _, p := range w.ports {
		if p.a == k || p.c == k || p.e == k || p.g == k {
			e.Branches = append(e.Branches, p.in, p.out)
		}
	}
	return e
}
