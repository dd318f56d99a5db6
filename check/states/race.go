package states

import "slices"

// race decides which relays move next. All that ask move together until that
// goes round in circles; from then on one at a time moves, in turn. Where that
// goes round in circles too there is no rest.
type race struct {
	seen   map[string]bool
	single bool
	last   int    // coil that moved last, of single moves
	start  string // where the circle began that is being gone round
	circle []int  // coils that move on it
}

// turn picks from the coils that ask, none when it is over. The mark tells one
// setting of the relays from another.
func (r *race) turn(asking []int, mark string) []int {
	if len(asking) == 0 {
		r.circle = nil
		return nil
	}
	if r.single {
		mark += string(rune(r.last))
	}
	switch {
	case mark == r.start: // once round
		slices.Sort(r.circle)
		r.circle = slices.Compact(r.circle)
		return nil
	case r.seen[mark] && !r.single:
		r.single, r.seen = true, nil
	case r.seen[mark] && r.start == "":
		r.start = mark
	}
	if r.seen == nil {
		r.seen = map[string]bool{}
	}
	r.seen[mark] = true
	if !r.single {
		return asking
	}
	return r.next(asking)
}

// next is the first coil that asks after the one that moved last.
func (r *race) next(asking []int) []int {
	k := max(0, slices.IndexFunc(asking, func(coil int) bool { return coil > r.last }))
	r.last = asking[k]
	if r.start != "" {
		r.circle = append(r.circle, r.last)
	}
	return asking[k : k+1]
}
