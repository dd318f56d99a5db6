package states

import "errors"

// errStopped stands in a point that was not solved, since nobody wants it.
var errStopped = errors.New("stopped before it was solved")

// Stopped reports whether nobody wants what is solved any more.
func (s *Solver) Stopped() bool { return s.Stop != nil && s.Stop() }

// unsolved is a point in which nothing flows.
func (s *Solver) unsolved(p Position) *Point {
	return &Point{
		Position: p, network: s.Network, In: map[int]bool{}, Failed: errStopped,
		amps: make([]float64, len(s.Network.Elements)), volts: make([]float64, s.Network.Nodes), alive: make([]bool, s.Network.Nodes),
	}
}
