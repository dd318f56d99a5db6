package states

import (
	"math"
	"slices"
)

// desk is what bounders of one network work at one after the other, so that not
// every frame takes its own room.
type desk struct {
	kept      []keptForest // of the last frames
	in        []line       // by rank
	out       []line
	drops     [][]float64 // that are not in use
	todo      []step
	across    []float64
	floats    []float64
	worker    *bounder
	known     outlines
	joined    map[int][]bool       // as the worker has it, where no switch is set
	exclusive map[[2]int32][2]line // see lines
}

// keptForest is a forest with what may conduct in it, which is all that it hangs
// on: frames that differ in temperature and charge alone share it.
type keptForest struct {
	can    []bool
	forest *forest
}

// mostForests is how many are kept: one for each place of the key.
const mostForests = 3

func newDesk(nodes int, known outlines) *desk {
	return &desk{
		in: make([]line, nodes), out: make([]line, nodes), known: known,
		joined: map[int][]bool{}, exclusive: map[[2]int32][2]line{},
	}
}

// sit begins with another frame: with its outline.
func (d *desk) sit(s *Solver, p *Position, in map[int]bool) *bounder {
	if d.worker == nil {
		d.worker = s.outline(p, in)
		d.worker.d = d
	}
	b := d.worker
	b.in, b.joined, b.reaches = in, nil, b.reaches[:0]
	if len(p.Throws) == 0 {
		b.joined = d.joined
	}
	if known := d.known.of(p); known != nil && len(in) == 0 {
		b.copy(p, known)
	} else {
		b.redraw(p)
	}
	return b
}

// forest is the forest of what may conduct.
func (d *desk) forest(b *bounder) *forest {
	for _, k := range d.kept {
		if slices.Equal(k.can, b.can) {
			k.forest.forget()
			return k.forest
		}
	}
	made := newForest(b.s.Network.Nodes, b.edges())
	made.open()
	if len(d.kept) == mostForests {
		d.kept = slices.Delete(d.kept, 0, 1)
	}
	d.kept = append(d.kept, keptForest{slices.Clone(b.can), made})
	return made
}

// take is room for drops, all infinite.
func (d *desk) take(nodes int) []float64 {
	var list []float64
	if last := len(d.drops) - 1; last >= 0 {
		list, d.drops = d.drops[last], d.drops[:last]
	} else {
		list = make([]float64, nodes)
	}
	for v := range list {
		list[v] = math.Inf(1)
	}
	return list
}

// give takes drops back that are not needed any more.
func (d *desk) give(lists ...[]float64) { d.drops = append(d.drops, lists...) }

// room is a slice of some length, for use as scratch.
func room[T any](kept *[]T, n int) []T {
	if cap(*kept) < n {
		*kept = make([]T, n)
	}
	return (*kept)[:n]
}
