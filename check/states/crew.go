package states

import (
	"runtime"
	"sync/atomic"
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
	done := make([]chan answer, len(list))
	for k := range done {
		done[k] = make(chan answer, 1)
	}
	free := make(chan struct{}, ahead*hands)
	var next atomic.Int64
	for _, s := range c.solvers[:hands] {
		go s.help(list, &next, free, done)
	}
	for k := range list {
		take(k, <-done[k])
		<-free
	}
}

// help solves what is next in a list until there is nothing left of it.
func (s *Solver) help(list []visit, next *atomic.Int64, free chan struct{}, done []chan answer) {
	for {
		free <- struct{}{}
		k := int(next.Add(1)) - 1
		if k >= len(list) {
			<-free
			return
		}
		done[k] <- s.visit(list[k])
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
