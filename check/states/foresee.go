package states

import "math"

// clearV is how far from its limits a coil's voltage must be for what it does not
// to hang on the last digits of a solve.
const clearV = 1e-6

// foresee lists the coils that ask in a position, where one that was solved before
// tells: with the relays at rest most switches feed nothing yet, and where they
// stand makes no difference to what the coils get. It is nil where none asks, and
// where only solving tells.
func (s *Solver) foresee(out *Point) []int {
	s.switchAll(s.open, false)
	like := s.net.Like(s.state)
	if like == nil {
		return nil
	}
	out.volts, out.alive = like.ByNode()
	for _, coil := range s.coils {
		if !s.plainly(out, coil) {
			return nil
		}
	}
	return s.asking(out)
}

// plainly: a coil's voltage is known and not near its limits.
func (s *Solver) plainly(out *Point, coil int) bool {
	releases, pulls := s.limits(out, coil)
	volts := math.Abs(out.Across(coil))
	return s.state.On(s.branches[coil]) && math.Abs(volts-releases) > clearV && math.Abs(volts-pulls) > clearV
}
