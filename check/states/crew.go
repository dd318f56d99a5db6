package states

import (
	"runtime"
	"sync/atomic"

	"hame/lang/beside"
)

// visit is a position to solve.
type visit struct {
	at Position
	// sparing leaves out what relays that hold themselves would change.
	sparing bool
}

// answer is a visit's point and, where relays that hold themselves make another
// of it, that.
type answer struct{ point, held *Point }

// crew are solvers of one network that work beside each other.
type crew struct{ solvers []*Solver }

// ahead is how many answers for each solver may wait to be taken.
const ahead = 4

// solve solves a list of visits, as many at once as there are processors, and
// hands the answers over in the order of the list, all from the goroutine that
// asked. An answer hangs on its visit alone, so it does not matter who came by it.
func (c *crew) solve(list []visit, take func(k int, a answer)) {
	hands := min(runtime.GOMAXPROCS(0), len(list))
	if hands < 2 {
		for k, v := range list {
			take(k, c.solvers[0].visit(v))
		}
		return
	}
	for len(c.solvers) < hands {
		c.solvers = append(c.solvers, c.solvers[0].Clone())
	}
	r := &round{list: list, done: make([]chan answer, len(list)), free: make(chan struct{}, ahead*hands), Group: beside.New()}
	for k := range r.done {
		r.done[k] = make(chan answer, 1)
	}
	defer r.Stop()
	for _, s := range c.solvers[:hands] {
		r.Go(func() { s.help(r) })
	}
	for k := range list {
		select {
		case a := <-r.done[k]:
			take(k, a)
			<-r.free
		case <-r.Over():
			return
		}
	}
}

// round is a list while it is being solved.
type round struct {
	list []visit
	next atomic.Int64
	free chan struct{} // holds one for each answer that is being worked out or waits
	done []chan answer
	*beside.Group
}

// help solves what is next in a list until there is nothing left of it.
func (s *Solver) help(r *round) {
	for {
		select {
		case r.free <- struct{}{}:
		case <-r.Over():
			return
		}
		k := int(r.next.Add(1)) - 1
		if k >= len(r.list) {
			return
		}
		r.done[k] <- s.visit(r.list[k])
	}
}

func (s *Solver) visit(v visit) answer {
	if s.Stopped() {
		return answer{point: s.unsolved(v.at)}
	}
	a := answer{point: s.Solve(v.at)}
	if !v.sparing {
		a.held = s.held(a.point)
	}
	return a
}
