package layered

import (
	"cmp"
	"slices"
)

// rounds is how often heights are settled to and fro.
const rounds = 16

// gapMM is what lies between two items of a layer besides their own room.
const gapMM = 2

// place finds the heights of all rows: in the order of the layers, with room
// between them, and so that as many wires as may be run straight. To and fro each
// layer is laid out as well as its neighbours at one side ask, then at both; the
// best of all is kept.
func (s *sketch) place() {
	for _, layer := range s.layers {
		settle(layer, func(*item) []*segment { return nil })
	}
	least, best := s.strain(), s.heights()
	for r := range rounds {
		s.relax(r)
		if n := s.strain(); n < least {
			least, best = n, s.heights()
		}
	}
	s.restore(best)
	s.straighten()
	s.lift()
}

func (s *sketch) relax(r int) {
	for k := range s.layers {
		layer := s.layers[k]
		if r%2 == 1 {
			layer = s.layers[len(s.layers)-1-k]
		}
		settle(layer, func(it *item) []*segment {
			switch {
			case r >= rounds/2:
				return append(append([]*segment{}, it.left...), it.right...)
			case r%2 == 0:
				return it.left
			}
			return it.right
		})
	}
}

// strain is how far the layout is from straight wires.
func (s *sketch) strain() float64 {
	sum := 0.0
	for _, c := range s.channels {
		for _, g := range c {
			sum += strained(g.pins[0].y() - g.pins[1].y())
		}
	}
	return sum
}

func (s *sketch) heights() []float64 {
	var list []float64
	for _, layer := range s.layers {
		for _, it := range layer {
			for _, r := range it.rows {
				list = append(list, r.y)
			}
		}
	}
	return list
}

func (s *sketch) restore(list []float64) {
	for _, layer := range s.layers {
		for _, it := range layer {
			for k := range it.rows {
				it.rows[k].y, list = list[0], list[1:]
			}
		}
	}
}

// lift moves everything so that the topmost begins at 0.
func (s *sketch) lift() {
	top := 0.0
	first := true
	for _, layer := range s.layers {
		if len(layer) > 0 {
			r := layer[0].rows[0]
			if y := r.y - r.up; first || y < top {
				top, first = y, false
			}
		}
	}
	for _, layer := range s.layers {
		for _, it := range layer {
			for k := range it.rows {
				it.rows[k].y -= top
			}
		}
	}
}

// wish is a height that a row would have, and how much.
type wish struct{ y, weight float64 }

// block is rows that stand as close as they may, with all their wishes.
type block struct {
	wishes []wish
	rows   int
	at     float64
}

// settle places the rows of a layer: the sum of the weighted distances to their
// wishes is the least that their order and room allow. That is isotonic regression
// by medians: rows that would overlap are pooled.
func settle(layer []*item, joined func(*item) []*segment) {
	var blocks []block
	offsets := stacked(layer)
	n := 0
	for _, it := range layer {
		wishes := it.wishes(joined(it))
		for k, r := range it.rows {
			blocks = pool(append(blocks, newBlock(r, wishes[k], offsets[n])))
			n++
		}
	}
	var heights []float64
	for _, b := range blocks {
		for range b.rows {
			heights = append(heights, b.at+offsets[len(heights)])
		}
	}
	for _, it := range layer {
		for k := range it.rows {
			it.rows[k].y, heights = heights[0], heights[1:]
		}
	}
}

// stacked is how far below the first row of a layer each stands at least.
func stacked(layer []*item) []float64 {
	var offsets []float64
	offset, down := 0.0, 0.0
	for _, it := range layer {
		for k, r := range it.rows {
			if len(offsets) > 0 {
				offset += down + r.up
				if k == 0 {
					offset += gapMM
				}
			}
			down = r.down
			offsets = append(offsets, offset)
		}
	}
	return offsets
}

// wishes are where the segments at an item would have its rows.
func (it *item) wishes(joined []*segment) [][]wish {
	list := make([][]wish, len(it.rows))
	for _, g := range joined {
		for i := range g.pins {
			mine, other := &g.pins[i], &g.pins[1-i]
			if mine.item == it && other.item != it {
				list[mine.row] = append(list[mine.row], wish{other.y() - mine.off, weigh(mine, other)})
			}
		}
	}
	return list
}

func newBlock(r row, wishes []wish, offset float64) block {
	if len(wishes) == 0 { // it stays where it is, if nobody minds
		wishes = []wish{{r.y, 0.01}}
	}
	for i := range wishes {
		wishes[i].y -= offset
	}
	slices.SortStableFunc(wishes, func(a, b wish) int { return cmp.Compare(a.y, b.y) })
	return block{wishes: wishes, rows: 1, at: median(wishes)}
}

// weigh: the lanes of long wires matter more, or they wind their way.
func weigh(a, b *pin) float64 {
	switch {
	case a.item.lane() && b.item.lane():
		return 4
	case a.item.lane() || b.item.lane():
		return 2
	}
	return 1
}

// pool joins the last blocks as long as they overlap.
func pool(blocks []block) []block {
	for len(blocks) > 1 {
		a, b := &blocks[len(blocks)-2], &blocks[len(blocks)-1]
		if a.at <= b.at {
			break
		}
		a.wishes = merged(a.wishes, b.wishes)
		a.rows += b.rows
		a.at = median(a.wishes)
		blocks = blocks[:len(blocks)-1]
	}
	return blocks
}

// merged is two sorted lists in one.
func merged(a, b []wish) []wish {
	out := make([]wish, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		if b[0].y < a[0].y {
			out, b = append(out, b[0]), b[1:]
		} else {
			out, a = append(out, a[0]), a[1:]
		}
	}
	return append(append(out, a...), b...)
}

// median is the least height of a sorted list with at least half the weight at or
// above it.
func median(list []wish) float64 {
	all := 0.0
	for _, w := range list {
		all += w.weight
	}
	sum := 0.0
	for _, w := range list {
		if sum += w.weight; sum >= all/2 {
			return w.y
		}
	}
	return 0
}
