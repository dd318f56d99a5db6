package layered

import (
	"math"
	"slices"
)

// inTurn orders turns so that each stands at the left of those that must stand at
// its right, and otherwise in the order that they come in. Where they wait for
// each other in a circle, one of the circle is parted in two with a step between.
func inTurn(turns []*turn, all []*segment) []*turn {
	var out []*turn
	left := map[float64]*turn{} // those not placed, by the heights at their left
	for _, t := range turns {
		for _, y := range t.lefts {
			left[y] = t
		}
	}
	waits := func(t *turn) *turn {
		for _, y := range t.rights {
			if o := left[y]; o != nil && o.segment != t.segment {
				return o
			}
		}
		return nil
	}
	take := func(t *turn) {
		out = append(out, t)
		for _, y := range t.lefts {
			delete(left, y)
		}
	}
	for len(turns) > 0 {
		i := slices.IndexFunc(turns, func(t *turn) bool { return waits(t) == nil })
		if i >= 0 {
			take(turns[i])
			turns = slices.Delete(turns, i, i+1)
			continue
		}
		i = slices.Index(turns, circular(turns[0], waits))
		first, second := parted(turns[i], free(turns[i], all, out, turns))
		take(first)
		turns[i] = second
	}
	return out
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
	for _, list := range lists {
		for _, o := range list {
			for _, y := range slices.Concat(o.lefts, o.rights) {
				used[y] = true
			}
		}
	}
	middle := 2*math.Round((t.top+t.bottom)/4) + 1
	tight := 0.0
	for d := 0.0; ; d += 2 {
		for _, y := range []float64{middle + d, middle - d} {
			if used[y] {
				continue
			}
			if !used[y-1] && !used[y+1] || d > 100 {
				return y
			}
			if tight == 0 {
				tight = y
			}
		}
		if d > 40 && tight != 0 {
			return tight
		}
	}
}
