package layered

import (
	"math"
	"slices"
)

// inTurn orders turns so that each stands at the left of those that must stand at
// its right, and otherwise in the order that they come in. Where they wait for
// each other in a circle, one of the circle is parted in two with a step between.
func inTurn(turns []*turn, all []*segment) []*turn {
	q := &queue{left: map[float64]*turn{}}
	for _, t := range turns {
		for _, y := range t.lefts {
			q.left[y] = t
		}
	}
	for len(turns) > 0 {
		i := slices.IndexFunc(turns, func(t *turn) bool { return q.waits(t) == nil })
		if i >= 0 {
			q.take(turns[i])
			turns = slices.Delete(turns, i, i+1)
			continue
		}
		i = slices.Index(turns, circular(turns[0], q.waits))
		first, second := parted(turns[i], free(turns[i], all, q.out, turns))
		q.take(first)
		turns[i] = second
	}
	return q.out
}

// queue is turns in order, and by the heights at their left those to come.
type queue struct {
	out  []*turn
	left map[float64]*turn
}

// waits is a turn that another must come after, nil where there is none.
func (q *queue) waits(t *turn) *turn {
	for _, y := range t.rights {
		if o := q.left[y]; o != nil && o.segment != t.segment {
			return o
		}
	}
	return nil
}

func (q *queue) take(t *turn) {
	q.out = append(q.out, t)
	for _, y := range t.lefts {
		delete(q.left, y)
	}
}

// circular walks along those that wait for each other until one comes again.
func circular(t *turn, waits func(*turn) *turn) *turn {
	seen := map[*turn]bool{}
	for !seen[t] {
		seen[t] = true
		t = waits(t)
	}
	return t
}

// parted cuts a turn in two, with a step at a height. The first half waits for
// nobody.
func parted(t *turn, y float64) (first, second *turn) {
	first = &turn{segment: t.segment, lefts: t.lefts, rights: []float64{y}}
	second = &turn{segment: t.segment, lefts: []float64{y}, rights: t.rights}
	first.span()
	second.span()
	return first, second
}

// free finds a height for a step, between the others' heights: as near to the
// middle of the turn as may be. Others stand on even heights mostly, steps on odd
// ones.
func free(t *turn, all []*segment, lists ...[]*turn) float64 {
	used := map[float64]bool{}
	for _, g := range all {
		used[g.pins[0].y()], used[g.pins[1].y()] = true, true
	}
	for _, o := range slices.Concat(lists...) {
		for _, y := range slices.Concat(o.lefts, o.rights) {
			used[y] = true
		}
	}
	middle := 2*math.Round((t.top+t.bottom)/4) + 1
	if y, ok := nearest(middle, 20, func(y float64) bool { return !used[y] && !used[y-1] && !used[y+1] }); ok {
		return y
	}
	y, _ := nearest(middle, len(used)+1, func(y float64) bool { return !used[y] })
	return y
}

// nearest tries heights by steps of 2, further and further off.
func nearest(middle float64, steps int, fits func(float64) bool) (float64, bool) {
	for d := range steps {
		for _, y := range []float64{middle + 2*float64(d), middle - 2*float64(d)} {
			if fits(y) {
				return y, true
			}
		}
	}
	return middle, false
}
