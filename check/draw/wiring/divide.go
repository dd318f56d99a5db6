package wiring

import (
	"cmp"
	"slices"

	"hame/lang/harness"
	"hame/lang/kinds"
)

// The wires that stand on one sheet: all, where they are no more than the first;
// else about the second.
const (
	wholeWires = 200
	sheetWires = 60
	manyWires  = 300 // are tried on fewer sizes of sheet
	leastWires = 6   // on a sheet that is drawn smaller where even they don't fit
)

// fitted lays the sheets out: one where all fits, else the circuits of the panels'
// ways shared out over several.
func (s *scheme) fitted(o Options) []*view {
	wires := len(s.harness.Wires)
	if o.Paper == "" {
		most := wires
		if wires > wholeWires {
			most = sheetWires
		}
		s.divide(most)
		return s.views()
	}
	for most := min(wires, wholeWires); ; {
		s.divide(most)
		views := s.views()
		if s.fit(views, o) {
			return s.together(views, o)
		}
		if most < leastWires {
			return views
		}
		most = most * 4 / 5
		if wires > manyWires {
			most /= 2
		}
	}
}

// together joins each sheet with the next where both fit on one.
func (s *scheme) together(views []*view, o Options) []*view {
	if len(s.harness.Wires) > manyWires {
		return views
	}
	for n := 0; n < s.sheets-1; {
		s.shift(n, -1)
		if joined := s.views(); s.fit(joined, o) {
			views = joined
			continue
		}
		s.shift(n, 1)
		n++
	}
	return views
}

// shift moves what stands behind a sheet by one: -1 joins the next one to it, and 1
// undoes that, since the boxes remember.
func (s *scheme) shift(n, by int) {
	s.sheets += by
	for _, b := range s.boxes {
		if by < 0 {
			b.before = b.sheet
			if b.sheet > n {
				b.sheet--
			}
		} else {
			b.sheet = b.before
		}
	}
}

// divide puts the boxes on sheets of so many wires at most: first what leads to the
// panels, then circuit by circuit in the order of the ways, then the return side.
func (s *scheme) divide(most int) {
	s.sheets = 1
	for _, b := range s.boxes {
		b.sheet = 0
	}
	if len(s.harness.Wires) <= most {
		return
	}
	f := &filler{scheme: s, most: float64(most)}
	for _, group := range s.circuits() {
		f.group(group)
	}
	f.used = 0 // the return side stands below the last circuits
	for _, b := range s.boxes {
		if b.collects {
			f.put(b, 1)
		}
	}
}

// filler fills sheets one after the other.
type filler struct {
	scheme     *scheme
	most, used float64
}

// room turns to a new sheet where there is no room for some wires.
func (f *filler) room(wires float64) {
	if f.used > 0 && f.used+wires > f.most {
		f.scheme.sheets++
		f.used = 0
	}
}

func (f *filler) put(b *box, wires float64) {
	f.room(wires)
	b.sheet = f.scheme.sheets - 1
	f.used += wires
}

// group puts boxes on one sheet, where one is large enough for them.
func (f *filler) group(list []*box) {
	f.room(weigh(list))
	for _, b := range list {
		f.put(b, b.weight())
	}
}

// weight is a box's share of the wires.
func (b *box) weight() float64 {
	n := 0
	list := b.device.Terminals
	if b.part > 0 {
		list = b.ways
	}
	for _, t := range list {
		n += len(t.Wires)
	}
	return 0.5 * float64(n)
}

func weigh(group []*box) float64 {
	sum := 0.0
	for _, b := range group {
		sum += b.weight()
	}
	return sum
}

// circuits groups the boxes: the trunk, and what hangs together without it, each
// from its feed on.
func (s *scheme) circuits() [][]*box {
	trunk := s.trunk()
	var groups [][]*box
	var first []*box
	seen := map[*box]bool{}
	for _, b := range s.byFeed(s.boxes) {
		if trunk[b] {
			first = append(first, b)
		}
	}
	groups = append(groups, first)
	from := slices.Concat(first, s.byFeed(s.boxes))
	for _, b := range from {
		for _, o := range append(s.neighbours(b), b) {
			if seen[o] || trunk[o] || o.collects {
				continue
			}
			groups = append(groups, s.hanging(o, trunk, seen))
		}
	}
	return groups
}

// hanging lists what hangs together with a box, but for the trunk.
func (s *scheme) hanging(b *box, trunk, seen map[*box]bool) []*box {
	seen[b] = true
	list := []*box{b}
	for i := 0; i < len(list); i++ {
		for _, o := range s.neighbours(list[i]) {
			if !seen[o] && !trunk[o] && !o.collects {
				seen[o] = true
				list = append(list, o)
			}
		}
	}
	return list
}

// byFeed orders boxes by how far they are from the sources.
func (s *scheme) byFeed(list []*box) []*box {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b *box) int { return cmp.Compare(s.near(a), s.near(b)) })
	return list
}

func (s *scheme) near(b *box) int {
	least := far
	for _, t := range b.device.Terminals {
		least = min(least, s.dist[t.Index])
	}
	return least
}

// neighbours are the boxes at the other ends of a box's wires, in the order of its
// terminals.
func (s *scheme) neighbours(b *box) []*box {
	var list []*box
	for _, t := range b.device.Terminals {
		if s.of[t] != b {
			continue
		}
		for _, w := range t.Wires {
			if o := otherEnd(w, t); o != nil {
				list = append(list, s.of[o])
			}
		}
	}
	return list
}

func otherEnd(w *harness.Wire, t *harness.Terminal) *harness.Terminal {
	if w.Ends[0].Terminal == t {
		return w.Ends[1].Terminal
	}
	return w.Ends[0].Terminal
}

// trunk is the supplies, all that leads to a panel (without panels, to any
// protective device), and what lies between.
func (s *scheme) trunk() map[*box]bool {
	out := map[*box]bool{}
	for _, b := range s.boxes {
		if b.device.Is(kinds.Supply) && !b.device.Is(kinds.Supply, "converter") {
			out[b] = true
		}
	}
	for todo := s.protections(); len(todo) > 0; {
		b := todo[0]
		todo = todo[1:]
		if !out[b] {
			out[b] = true
			todo = append(todo, s.feeding(b)...)
		}
	}
	for _, b := range s.boxes {
		if !out[b] && s.within(b, out) {
			out[b] = true
		}
	}
	return out
}

// protections lists the panels; without any, all protective devices.
func (s *scheme) protections() []*box {
	var list []*box
	for _, names := range [][]string{{"panel"}, nil} {
		for _, b := range s.boxes {
			if b.device.Is(kinds.Protection, names...) {
				list = append(list, b)
			}
		}
		if len(list) > 0 {
			break
		}
	}
	return list
}

// within reports whether a device lies between devices of the trunk alone, as an
// alternator's fuse does.
func (s *scheme) within(b *box, trunk map[*box]bool) bool {
	list := s.neighbours(b)
	for _, o := range list {
		if !trunk[o] {
			return false
		}
	}
	return len(list) > 1 && !b.collects && !b.device.Is(kinds.Load)
}

// feeding lists the boxes that wires come to a box from.
func (s *scheme) feeding(b *box) []*box {
	var list []*box
	for _, t := range b.device.Terminals {
		for _, w := range t.Wires {
			o := otherEnd(w, t)
			if o != nil && s.of[t] == b && s.dist[o.Index] < s.dist[t.Index] && !s.of[o].collects && s.dist[o.Index] < far {
				list = append(list, s.of[o])
			}
		}
	}
	return list
}
