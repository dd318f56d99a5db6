package states

import (
	"math"

	"hame/check/network"
)

// bounder bounds what can flow in one frame, whichever switches are closed and
// whichever relays are in.
//
// Currents run from high to low volts through everything but sources, so they
// fall into paths that begin at one source or load and end at the next. What
// runs along an edge is therefore no more than what lies before it can give,
// and no more than what lies behind it can take. Loads take at most what their
// law draws within the volts that they can get, and those are the sources' less
// the greatest drops: so volts and currents bound each other.
type bounder struct {
	s      *Solver
	d      *desk
	p      *Position
	sneaks []bool       // by element; see sneaks
	in     map[int]bool // coils whose relay is taken for in or out
	can    []bool       // by element: it may conduct
	fed    []bool       // by node: a source may feed it, and it is no return
	seen   []bool       // the room for fed
	todo   []int
	forest *forest
	supply []supply // by element, of sources
	group  []int32  // by connected part (its root): the parts that loads bridge
	top    []float64
	relief []float64 // by element, of batteries: see relieve
	cap    []float64 // and what they give at most for that
	wrong  float64   // what all loads together carry the wrong way round
	all    float64   // the sum of the sources' volts
	ohm    []float64 // by rank: see series
	each   []float64 // by element: its resistance
	joined map[int][]bool
	lone   int     // the only source that is on; -1 where there are none or several
	astray float64 // what may flow the wrong way round along a live feed
	// reaches are the blocks with no source beyond them, each after those between
	// it and the source, by their seats next to it.
	reaches []int32
	offset  float64   // the most that two points of the return side differ by
	lo, hi  []float64 // by element, of loads: the volts that they get when on
	least   []float64 // what lo comes to by the drops
	fore    []float64 // by element: the most that flows from A to B; of a source, that it gives
	back    []float64 // and the other way
}

// boundRounds is how often volts are worked out from currents and back before
// they count as falling without end.
const boundRounds = 24

// room makes room for what is bounded. What is worked out along the way is in the
// desk's room; what is bounded goes to the asker.
func (b *bounder) room() {
	n, nodes := len(b.s.Network.Elements), b.s.Network.Nodes
	all := room(&b.d.floats, 6*n)
	clear(all)
	for k, list := range []*[]float64{&b.relief, &b.cap, &b.lo, &b.hi, &b.least, &b.each} {
		*list = all[k*n : (k+1)*n : (k+1)*n]
	}
	b.fore, b.back = make([]float64, n), make([]float64, n)
	b.group, b.top, b.ohm = room(&b.group, nodes), room(&b.top, nodes), room(&b.ohm, nodes)
	clear(b.top)
	clear(b.ohm)
	for i := range b.each {
		b.each[i] = b.s.ohmAt(i, b.p)
	}
}

// bound is what no element carries more of, whatever is closed.
type bound struct{ fore, back []float64 }

// mostSplits is how many switches and relays are split by.
const mostSplits = 5

// bounds bounds every element in a position. Where what may conduct joins a
// source's own poles, no load limits anything. That need not be a short: a
// switch that turns a motor round only seems to be one as long as all of its
// throws may be closed at once. So there each of its throws is bounded by
// itself, and no element carries more than in the greatest of the answers.
func (s *Solver) bounds(p Position, in map[int]bool, splits int, at *desk) []bound {
	b := at.sit(s, &p, in)
	b.forest = at.forest(b)
	if d, coil := b.culprit(); splits > 0 && d != nil {
		return s.split(p, in, splits, d, coil, at)
	}
	b.room()
	b.sneaks = s.sneaks
	b.groups()
	b.lone = b.single()
	b.series(b.ohm)
	b.close()
	return []bound{{b.fore, b.back}}
}

// close works out volts and currents from each other. It begins with no drop at
// all and lets the volts fall until, from volts a little lower still, no
// greater drops follow: then nothing that begins with lightly loaded feeds, as
// a machine does and the solver too, can leave those volts. Where the volts
// fall and fall it begins with the other end, at which loads may get anything.
func (b *bounder) close() {
	b.guess(0)
	b.alone()
	for range boundRounds {
		b.loads()
		b.currents()
		lo, offset := b.volts(), b.apart()
		if sound := b.relieve(); b.holds(lo, offset) && sound {
			return
		}
		b.lower(lo, offset)
	}
	b.guess(1)
	b.alone()
	for range 3 {
		b.loads()
		b.currents()
		lo, offset := b.volts(), b.apart()
		copy(b.lo, lo)
		b.offset = min(b.offset, offset)
	}
}

func (b *bounder) sources() {
	all := 0.0
	for _, i := range b.s.sources {
		b.supply[i] = supplyAt(b.s.Network.Elements[i].Source, b.p)
		all += b.supply[i].volts
	}
	for _, i := range b.s.sources {
		if s := &b.supply[i]; math.IsInf(s.gives, 1) {
			s.gives = all / s.ohm
		}
	}
	b.all = all
}

// edges lists what may conduct, as the forest wants it.
func (b *bounder) edges() []edge {
	list := make([]edge, 0, len(b.can))
	for i := range b.s.digests {
		e := &b.s.digests[i]
		if b.can[i] && e.a != e.b {
			list = append(list, edge{element: int32(i), a: e.a, b: e.b, oneWay: e.kind == network.Diode, group: b.exclusive(i)})
		}
	}
	return list
}

// exclusive groups the throws of one switch, and a relay's two contacts.
func (b *bounder) exclusive(i int) int32 {
	if b.s.digests[i].kind != network.Contact {
		return 0
	}
	switch e := &b.s.Network.Elements[i]; {
	case e.Gate.By == network.Hand && e.Device != nil && len(e.Device.Terminals) > 2:
		return 1 + int32(e.Device.Terminals[0].Index)
	case e.Gate.By == network.Relay && e.Gate.Coil >= 0:
		// A coil's terminals have numbers of their own.
		return 1 + b.s.digests[e.Gate.Coil].a
	}
	return 0
}

// groups finds how far the volts of every connected part can rise: to those of
// the greatest source on it or on parts that loads join to it.
func (b *bounder) groups() {
	for v := range b.group {
		b.group[v] = int32(v)
	}
	for _, i := range b.s.loads {
		if e := b.s.digests[i]; e.bridges() {
			b.join(b.forest.comp[e.a], b.forest.comp[e.b])
		}
	}
	for range 1 + b.count() {
		for _, i := range b.s.sources {
			if !b.supply[i].off {
				b.lift(i)
			}
		}
	}
}

func (b *bounder) count() int {
	count := 0
	for _, i := range b.s.sources {
		if b.supply[i].volts != 0 {
			count++
		}
	}
	return count
}

func (b *bounder) join(x, y int32) {
	x, y = b.groupOf(x), b.groupOf(y)
	b.group[max(x, y)] = min(x, y)
}

func (b *bounder) groupOf(comp int32) int32 {
	for b.group[comp] != comp {
		comp = b.group[comp]
	}
	return comp
}

// lift raises a source's upper part above its lower one.
func (b *bounder) lift(i int) {
	n := b.s.Network
	e := &n.Elements[i]
	up, low := b.groupOf(b.forest.comp[e.A]), b.groupOf(b.forest.comp[e.B])
	if n.Return(e.A) && !n.Return(e.B) {
		up, low = low, up
	}
	switch stands := !n.Return(e.A) && !n.Return(e.B); {
	case stands && up == low: // a load leads from its top to its foot: both may rise
		b.top[up] = b.all
	case stands:
		b.top[low] = max(b.top[low], b.supply[i].volts)
		b.top[up] = max(b.top[up], b.top[low]+b.supply[i].volts)
	default:
		b.top[up] = max(b.top[up], b.supply[i].volts)
	}
}
