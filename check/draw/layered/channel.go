package layered

import (
	"cmp"
	"math"
	"slices"
)

// turn is a vertical stretch of a wire: where it comes from at the left and the
// right of the channel, and its track.
type turn struct {
	segment     *segment
	lefts       []float64 // heights at which it reaches to the left side
	rights      []float64 // and to the right side
	top, bottom float64
	track       int
}

func newTurn(g *segment) *turn {
	t := &turn{segment: g}
	for i := range g.pins {
		if g.pins[i].far {
			t.rights = append(t.rights, g.pins[i].y())
		} else {
			t.lefts = append(t.lefts, g.pins[i].y())
		}
	}
	t.span()
	return t
}

func (t *turn) span() {
	all := slices.Concat(t.lefts, t.rights)
	t.top, t.bottom = slices.Min(all), slices.Max(all)
}

// straight: no turn is needed.
func (g *segment) straight() bool {
	return g.pins[0].far != g.pins[1].far && g.pins[0].y() == g.pins[1].y()
}

// tracks gives every turn of a channel its track, counted from the left, and
// answers how many there are. Wires reach to the left on heights of their own,
// and to the right too; where one reaches to the left at the height at which
// another reaches to the right, its track must be the further left of the two.
func (s *sketch) tracks(c int) int {
	var turns []*turn
	for _, g := range s.channels[c] {
		if !g.straight() {
			turns = append(turns, newTurn(g))
		}
	}
	slices.SortStableFunc(turns, compare)
	turns = inTurn(turns, s.channels[c])
	turns = improved(turns)
	most := 0
	for i, t := range turns {
		for _, o := range turns[:i] {
			if o.track >= t.track && t.meets(o) {
				t.track = o.track + 1
			}
		}
		most = max(most, t.track+1)
	}
	s.tally(turns, c)
	for _, t := range turns {
		t.segment.tracks = append(t.segment.tracks, *t)
	}
	return most
}

// apartMM is what lies between the ends of two turns on one track.
const apartMM = 1.5

func (t *turn) meets(o *turn) bool {
	return t.top < o.bottom+apartMM && o.top < t.bottom+apartMM
}

// compare is a good order to begin with: wires that go up, the upper first, then
// those that go down, the lower first, so that each passes behind the others.
// What returns to its side stays close to it.
func compare(a, b *turn) int {
	return cmp.Or(cmp.Compare(a.group(), b.group()), cmp.Compare(a.rank(), b.rank()))
}

func (t *turn) group() int {
	switch {
	case len(t.rights) == 0:
		return 0
	case len(t.lefts) == 0:
		return 3
	case t.lefts[0] > t.rights[0]:
		return 1
	}
	return 2
}

func (t *turn) rank() float64 {
	switch t.group() {
	case 0:
		return t.bottom - t.top
	case 1:
		return t.lefts[0]
	case 2:
		return -t.lefts[0]
	}
	return t.top - t.bottom
}

// cost is how many wires cross if a stands at the left of b; without end where it
// may not.
func cost(a, b *turn) float64 {
	n := 0.0
	for _, y := range a.rights {
		if slices.Contains(b.lefts, y) {
			if a.segment == b.segment {
				continue // the two halves of one wire
			}
			return math.Inf(1)
		}
		if b.top < y && y < b.bottom {
			n++
		}
	}
	for _, y := range b.lefts {
		if a.top < y && y < a.bottom {
			n++
		}
	}
	if a.segment == b.segment && slices.Contains(b.rights, a.lefts[0]) {
		return math.Inf(1)
	}
	return n
}

// improved swaps neighbours as long as fewer wires cross.
func improved(turns []*turn) []*turn {
	const mostRounds = 60
	for range mostRounds {
		swapped := false
		for i := range len(turns) - 1 {
			a, b := turns[i], turns[i+1]
			if a.meets(b) && cost(b, a) < cost(a, b) {
				turns[i], turns[i+1] = b, a
				swapped = true
			}
		}
		if !swapped {
			break
		}
	}
	return turns
}

// tally counts the crossings of a channel.
func (s *sketch) tally(turns []*turn, c int) {
	s.bends += len(turns)
	for i, a := range turns {
		for _, b := range turns[i+1:] {
			s.crossings += int(cost(a, b))
		}
	}
	for _, g := range s.channels[c] {
		if !g.straight() {
			continue
		}
		y := g.pins[0].y()
		for _, t := range turns {
			if t.top < y && y < t.bottom {
				s.crossings++
			}
		}
	}
}
