package circuit

import "slices"

// answer is a point with all that it hangs on beside a state's values: the
// branches that are on and in an island with a source. Whatever else is on or
// off stands dead, and the same arithmetic would come to the same bits.
type answer struct {
	live  []bool
	point *Point
}

// mostKept is how many answers a state keeps: a machine goes through as many
// stages, relay behind relay, from rest to each of its positions.
const mostKept = 4

// Answer is Solve for one who goes from position to position: where nothing
// differs from one of the last but what no source reaches, it answers with that
// one's point, to the same bits.
func (n *Net) Answer(s *State) (*Point, error) {
	w := s.survey()
	if p := s.known(w.live); p != nil {
		return p, nil
	}
	p, err := w.solve(&s.plan)
	if err == nil {
		s.keep(w.live, p)
	}
	return p, err
}

// survey finds what is live.
func (s *State) survey() *work {
	if s.work == nil {
		s.work = newWork(s.net)
	}
	s.work.survey(&s.plan)
	return s.work
}

// known finds the answer for the branches that are live, and counts it as the
// latest.
func (s *State) known(live []bool) *Point {
	for i, a := range s.kept {
		if slices.Equal(a.live, live) {
			copy(s.kept[1:i+1], s.kept[:i])
			s.kept[0] = a
			return a.point
		}
	}
	return nil
}

// keep notes an answer in the place of the one that was not asked for longest.
func (s *State) keep(live []bool, p *Point) {
	if len(s.kept) < mostKept {
		s.kept = append(s.kept, answer{live: make([]bool, len(live))})
	}
	last := s.kept[len(s.kept)-1]
	copy(s.kept[1:], s.kept)
	copy(last.live, live)
	last.point = p
	s.kept[0] = last
}
