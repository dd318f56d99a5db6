package circuit

import (
	"math"
	"slices"
)

// answer is a point with all that it hangs on beside a state's values: the
// branches that are on and in an island with a source. Whatever else is on or
// off stands dead, and the same arithmetic would come to the same bits.
type answer struct {
	on, live []bool
	level    []bool // of resistances that are off: nothing lies across them
	point    *Point
	plain    bool // no falling slopes were left out on the way to it
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
		s.keep(p)
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
	for i := range s.kept {
		if slices.Equal(s.kept[i].live, live) {
			return s.latest(i)
		}
	}
	return nil
}

// latest is the point of a kept answer, which goes to the front.
func (s *State) latest(i int) *Point {
	a := s.kept[i]
	copy(s.kept[1:i+1], s.kept[:i])
	s.kept[0] = a
	return a.point
}

// keep notes an answer in the place of the one that was not asked for longest.
func (s *State) keep(p *Point) {
	if s.kept == nil {
		s.kept = make([]answer, 0, mostKept)
	}
	if n := len(s.kept); n < mostKept {
		s.kept = s.kept[:n+1] // maybe with the room of one that was forgotten
	}
	last := s.kept[len(s.kept)-1]
	if each := len(s.plan.on); last.on == nil {
		all := make([]bool, 3*each)
		last.on, last.live, last.level = all[:each], all[each:2*each], all[2*each:]
	}
	copy(s.kept[1:], s.kept)
	copy(last.on, s.plan.on)
	copy(last.live, s.work.live)
	s.level(last.level)
	last.point, last.plain = p, s.work.plain
	s.kept[0] = last
}

// level finds across which resistances that are off there is nothing.
func (s *State) level(level []bool) {
	w := s.work
	for b, on := range s.plan.on {
		level[b] = false
		if !on && s.plan.laws[b] == nil {
			hi, lo := w.drop(w.net.first[b], w.net.second[b])
			level[b] = math.Abs(hi+lo) <= stillVolts
		}
	}
}

// forget drops the answers that are kept, but for their room.
func (s *State) forget() {
	for i := range s.kept {
		s.kept[i].point = nil
	}
	s.kept = s.kept[:0]
}
