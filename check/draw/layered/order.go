package layered

import (
	"slices"
	"sort"
)

// The work that is done for a good order: sweeps over all layers, and how many
// pairs of segments may be compared in all.
const (
	sweeps    = 14
	mostPairs = 30_000_000
)

// arrange orders the items of every layer so that few wires cross: by the mean of
// what they are joined to, sweeping to and fro (barycentre), then by moving each to
// its best place (sifting). The best order of all is kept.
func (s *sketch) arrange() {
	s.begin()
	work := s.pairs()
	rounds := sweeps
	for rounds > 1 && rounds*work > mostPairs {
		rounds--
	}
	s.settlePools()
	best, order := s.count(work), s.keep()
	for r := range rounds {
		if best == 0 {
			break
		}
		s.sweep(r%2 == 0)
		if work*8 < mostPairs {
			s.sift()
		}
		s.settlePools()
		if n := s.count(work); n < best {
			best, order = n, s.keep()
		}
	}
	s.retake(order)
}

// begin orders the items as a walk along the wires from the first node meets
// them, so that what hangs together stands together.
func (s *sketch) begin() {
	met := map[*item]int{}
	for _, root := range s.boxes {
		stack := []*item{root}
		for len(stack) > 0 {
			it := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if _, seen := met[it]; seen {
				continue
			}
			met[it] = len(met)
			for _, list := range [][]*segment{it.left, it.right} {
				for k := len(list) - 1; k >= 0; k-- {
					stack = append(stack, list[k].other(it).item)
				}
			}
		}
	}
	for _, layer := range s.layers {
		sort.SliceStable(layer, func(a, b int) bool { return met[layer[a]] < met[layer[b]] })
	}
	s.number()
}

// order is a state of the search: the items of all layers, and where the pins
// land that may change places.
type order struct {
	layers [][]*item
	pins   []pin
}

func (s *sketch) keep() order {
	var o order
	for _, layer := range s.layers {
		o.layers = append(o.layers, slices.Clone(layer))
	}
	for _, pool := range s.pools {
		for _, p := range pool {
			o.pins = append(o.pins, *p)
		}
	}
	return o
}

func (s *sketch) retake(o order) {
	s.layers = o.layers
	for _, pool := range s.pools {
		for _, p := range pool {
			*p, o.pins = o.pins[0], o.pins[1:]
		}
	}
	s.number()
}

// pairs is how many pairs of segments meet in the channels.
func (s *sketch) pairs() int {
	n := 1
	for _, c := range s.channels {
		n += len(c) * len(c) / 2
	}
	return n
}

// count is how many wires must cross. Of a graph too large to count it answers
// with falling numbers, so that the last order is taken.
func (s *sketch) count(work int) int {
	if work > mostPairs {
		s.uncounted--
		return s.uncounted
	}
	n := 0
	for _, c := range s.channels {
		for i, a := range c {
			for _, b := range c[:i] {
				if cross(a, b) {
					n++
				}
			}
		}
	}
	return n
}

// cross: the ends of two segments take turns round their channel.
func cross(a, b *segment) bool {
	a0, a1 := inOrder(&a.pins[0], &a.pins[1])
	b0, b1 := inOrder(&b.pins[0], &b.pins[1])
	return before(a0, b0) && before(b0, a1) && before(a1, b1) || before(b0, a0) && before(a0, b1) && before(b1, a1)
}

func inOrder(p, q *pin) (*pin, *pin) {
	if before(q, p) {
		return q, p
	}
	return p, q
}

// before orders pins round a channel: down its left side, then up its right.
func before(p, q *pin) bool {
	switch {
	case p.far != q.far:
		return q.far
	case p.far:
		return p.key() > q.key()
	}
	return p.key() < q.key()
}

// sweep orders each layer by the mean place of its neighbours in the layer before.
func (s *sketch) sweep(onwards bool) {
	for k := range s.layers {
		layer := s.layers[k]
		if !onwards {
			layer = s.layers[len(s.layers)-1-k]
		}
		mean := map[*item]float64{}
		for _, it := range layer {
			mean[it] = it.mean(onwards)
		}
		sort.SliceStable(layer, func(a, b int) bool { return mean[layer[a]] < mean[layer[b]] })
		renumber(layer)
	}
}

// mean is where an item's neighbours at one side stand, from 0 to 1 of their
// layer's places; its own place where it has none.
func (it *item) mean(onwards bool) float64 {
	list := it.left
	if !onwards {
		list = it.right
	}
	sum, n := 0.0, 0
	for _, g := range list {
		if p := g.other(it); p.item != it {
			sum += p.key()
			n++
		}
	}
	if n == 0 {
		return it.place
	}
	return sum / float64(n)
}

// sift moves every item to the place in its layer at which the fewest wires cross.
func (s *sketch) sift() {
	for _, layer := range s.layers {
		for _, it := range slices.Clone(layer) {
			siftOne(layer, it)
		}
	}
}

func siftOne(layer []*item, it *item) {
	from := slices.Index(layer, it)
	best, least := from, 0
	for _, step := range []int{-1, 1} {
		sum := 0
		for k := from + step; k >= 0 && k < len(layer); k += step {
			sum += gain(layer[k], it, step)
			if sum < least {
				best, least = k, sum
			}
		}
	}
	if best == from {
		return
	}
	rest := slices.Delete(layer, from, from+1)
	copy(layer, slices.Insert(rest, best, it))
	renumber(layer)
}

// gain is how many more crossings there are once an item has passed another,
// upwards (-1) or downwards (1).
func gain(other, it *item, step int) int {
	place := it.place
	near := 0.25 * float64(step)
	it.place = other.place - near
	was := between(it, other)
	it.place = other.place + near
	is := between(it, other)
	it.place = place
	return is - was
}

func between(a, b *item) int {
	n := 0
	for _, side := range [][2][]*segment{{a.left, b.left}, {a.right, b.right}} {
		for _, x := range side[0] {
			for _, y := range side[1] {
				if x != y && cross(x, y) {
					n++
				}
			}
		}
	}
	return n
}
