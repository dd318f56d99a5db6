package layered

import (
	"cmp"
	"slices"
)

// tighten moves up whatever runs straight together, as far as there is room, where
// that costs less in turns than it wins in height.
func (s *sketch) tighten(v *shover) {
	done := map[*slot]bool{}
	for _, at := range s.downwards(v) {
		if done[at] || v.moves > mostMoves {
			continue
		}
		list := v.together(at)
		room := at.room(v.top)
		for _, o := range list {
			done[o] = true
			room = min(room, o.room(v.top))
		}
		v.moves += len(list)
		if room > 0 {
			v.lift(list, room)
		}
	}
}

// downwards lists all slots, the topmost first.
func (s *sketch) downwards(v *shover) []*slot {
	var all []*slot
	for _, layer := range s.layers {
		for _, it := range layer {
			for k := range it.rows {
				all = append(all, v.slots[&it.rows[k]])
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *slot) int { return cmp.Compare(a.row.y-a.row.up, b.row.y-b.row.up) })
	return all
}

// lift moves slots up where that is worth it.
func (v *shover) lift(list []*slot, room float64) {
	const perMM = 0.3
	shift := map[*slot]float64{}
	var moves []move
	for _, o := range list {
		shift[o] = -room
		moves = append(moves, move{o, -room})
	}
	if v.gain(moves, shift)+perMM*room > 0 {
		v.apply(moves)
	}
}

// room is how far a slot may move up.
func (at *slot) room(top float64) float64 {
	if at.above == nil {
		return at.row.y - at.row.up - top
	}
	return at.row.y - at.above.row.y - apart(at, at.above, -1)
}
