package layered

import (
	"cmp"
	"slices"
)

// gather finds the pins that may change places.
func (s *sketch) gather() {
	type key struct {
		item *item
		far  bool
		pool int
	}
	at := map[key]int{}
	for _, run := range s.runs {
		for _, g := range run {
			for i := range g.pins {
				p := &g.pins[i]
				k := key{p.item, p.far, p.pool}
				if p.pool == 0 {
					continue
				}
				n, known := at[k]
				if !known {
					n = len(s.pools)
					at[k] = n
					s.pools = append(s.pools, nil)
					s.mates = append(s.mates, nil)
				}
				s.pools[n] = append(s.pools[n], p)
				s.mates[n] = append(s.mates[n], &g.pins[1-i])
			}
		}
	}
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
