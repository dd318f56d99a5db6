package states

// SolveWithout solves the network in a position with some elements open, as
// Solve does that of network.Without, but with the work done that is the same for
// all of them. What an open element has across it is what stands at its nodes.
func (s *Solver) SolveWithout(p Position, open ...int) *Point {
	s.open = open
	point := s.Solve(p)
	s.open = nil
	s.switchAll(open, true) // what a position switches, it sets anew
	return point
}

func (s *Solver) switchAll(elements []int, on bool) {
	for _, i := range elements {
		if br := s.branches[i]; br >= 0 {
			s.state.Switch(br, on)
		}
	}
}
