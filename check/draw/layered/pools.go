package layered

import (
	"cmp"
	"slices"
)

// poolKey is what pins have in common that may change places.
type poolKey struct {
	item *item
	far  bool
	pool int
}

// gather finds the pins that may change places.
func (s *sketch) gather() {
	at := map[poolKey]int{}
	for _, run := range s.runs {
		for _, g := range run {
			for i := range g.pins {
				if p := &g.pins[i]; p.pool != 0 {
					s.into(at, p, &g.pins[1-i])
				}
			}
		}
	}
}

// into puts a pin and its mate into their pool.
func (s *sketch) into(at map[poolKey]int, p, mate *pin) {
	k := poolKey{p.item, p.far, p.pool}
	n, known := at[k]
	if !known {
		n = len(s.pools)
		at[k] = n
		s.pools, s.mates = append(s.pools, nil), append(s.mates, nil)
	}
	s.pools[n], s.mates[n] = append(s.pools[n], p), append(s.mates[n], mate)
}

// settlePools lets the pins of each pool change places, so that they land in the
// order of what they are joined to. Twice, since pools are joined to pools.
func (s *sketch) settlePools() {
	for range 2 {
		for n, pool := range s.pools {
			settlePool(pool, s.mates[n])
		}
	}
}

func settlePool(pool, mates []*pin) {
	if len(pool) < 2 {
		return
	}
	type spot struct {
		row int
		off float64
	}
	var spots []spot
	order := make([]int, len(pool))
	for i, p := range pool {
		spots = append(spots, spot{p.row, p.off})
		order[i] = i
	}
	slices.SortFunc(spots, func(a, b spot) int { return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.off, b.off)) })
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(mates[a].key(), mates[b].key()) })
	for k, i := range order {
		pool[i].row, pool[i].off = spots[k].row, spots[k].off
	}
}
