package layered

import "sort"

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
	offset := 0.0
	var offsets []float64
	down := 0.0
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
			blocks = pool(append(blocks, newBlock(it, k, offset, joined(it))))
		}
	}
	n := 0
	var heights []float64
	for _, b := range blocks {
		for range b.rows {
			heights = append(heights, b.at+offsets[n])
			n++
		}
	}
	for _, it := range layer {
		for k := range it.rows {
			it.rows[k].y, heights = heights[0], heights[1:]
		}
	}
}

func newBlock(it *item, k int, offset float64, joined []*segment) block {
	b := block{rows: 1}
	for _, g := range joined {
		for i := range g.pins {
			mine, other := &g.pins[i], &g.pins[1-i]
			if mine.item != it || mine.row != k || other.item == it {
				continue
			}
			b.wishes = append(b.wishes, wish{other.y() - mine.off - offset, weigh(mine, other)})
		}
	}
	if len(b.wishes) == 0 { // it stays where it is, if nobody minds
		b.wishes = []wish{{it.rows[k].y - offset, 0.01}}
	}
	b.at = median(b.wishes)
	return b
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
		a.wishes = append(a.wishes, b.wishes...)
		a.rows += b.rows
		a.at = median(a.wishes)
		blocks = blocks[:len(blocks)-1]
	}
	return blocks
}

// median is the least height with at least half the weight at or above it.
func median(list []wish) float64 {
	sort.SliceStable(list, func(a, b int) bool { return list[a].y < list[b].y })
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
