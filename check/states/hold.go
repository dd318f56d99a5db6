package states

import (
	"math"

	"hame/check/network"
)

// guess sets out with the volts that loads get with no drop, or with any drop
// that there can be.
func (b *bounder) guess(drop float64) {
	b.offset = drop * b.all
	for _, i := range b.s.loads {
		e := b.s.digests[i]
		top := max(b.topOf(e.a), b.topOf(e.b))
		b.hi[i] = top + b.offset
		b.lo[i] = (1 - drop) * top
		if b.sneaks[i] {
			b.lo[i] = 0
		}
	}
}

// volts is the least that every load gets, by the drops of the present
// currents.
func (b *bounder) volts() []float64 {
	for _, i := range b.s.loads {
		b.least[i] = math.Inf(1)
	}
	for _, i := range b.s.sources {
		if !b.supply[i].off {
			b.hold(i)
		}
	}
	for _, i := range b.s.loads {
		if b.sneaks[i] || math.IsInf(b.least[i], 1) {
			b.least[i] = 0
		}
	}
	return b.least
}

// holds: the volts that follow are within those that were set out from.
func (b *bounder) holds(lo []float64, offset float64) bool {
	for _, i := range b.s.loads {
		if lo[i] < b.lo[i] {
			return false
		}
	}
	return offset <= b.offset
}

// slack is how far below what followed the next round sets out, in volts and
// as a share of the last fall.
const (
	slackV     = 1e-4
	slackShare = 0.05
)

// lower sets out anew a little below what followed.
func (b *bounder) lower(lo []float64, offset float64) {
	grow := max(0, offset-b.offset)
	b.offset = max(b.offset, offset+slackV+slackShare*grow)
	for _, i := range b.s.loads {
		e := b.s.digests[i]
		b.hi[i] = max(b.topOf(e.a), b.topOf(e.b)) + b.offset
		if fall := b.lo[i] - lo[i]; fall > 0 {
			b.lo[i] = max(0, lo[i]-slackV-slackShare*fall)
		}
	}
}

func (b *bounder) topOf(v int32) float64 { return b.top[b.groupOf(b.forest.comp[v])] }

// hold lowers the least volts of all loads to what one source, if it is the
// only one that is joined to them, holds up. One that cannot hold its volts
// holds up nothing, unless a battery is always joined to it.
func (b *bounder) hold(i int) {
	e := &b.s.Network.Elements[i]
	volts := b.supply[i].volts - b.supply[i].ohm*b.fore[i]
	switch {
	case e.Source.Sort == "battery":
	case e.Source.Sort == "alternator" && b.backed(i):
		return
	case e.Source.Sort == "converter" && b.bears(i):
	default:
		volts = 0
	}
	low := b.drops(e.B, towards)
	b.spread(volts, e, low, map[int]bool{i: true})
	b.d.give(low)
}

// bears: a converter that has enough at its input and whose load is within
// its output.
func (b *bounder) bears(i int) bool {
	spec := b.s.Network.Elements[i].Source
	if spec.Input < 0 {
		return true
	}
	return b.fore[i] < 0.999*spec.OutputA && b.lo[spec.Input] >= converterLeast*spec.TakesV
}

// spread tells the loads between a source's upper part and its lower one what
// they get at least, and goes on through sources that stand on it.
func (b *bounder) spread(volts float64, e *network.Element, low []float64, been map[int]bool) {
	n := b.s.Network
	up := b.drops(e.A, away)
	ranks := b.forest.ranks
	for _, i := range b.s.loads {
		x, y := ranks[b.s.digests[i].a], ranks[b.s.digests[i].b]
		drop := min(up[x]+low[y], up[y]+low[x])
		if !math.IsInf(drop, 1) {
			b.least[i] = min(b.least[i], max(0, volts-drop))
		}
	}
	for _, i := range b.s.sources {
		l := &n.Elements[i]
		x, y := up[ranks[l.A]], up[ranks[l.B]]
		if !been[i] && !math.IsInf(y, 1) && math.IsInf(x, 1) && l.Source.Sort == "battery" {
			been[i] = true
			b.spread(volts-y+b.supply[i].volts-b.supply[i].ohm*b.fore[i], l, low, been)
		}
	}
	b.d.give(up)
}

// backed: another source's poles are joined to a battery's in all positions.
func (b *bounder) backed(i int) bool {
	e := &b.s.Network.Elements[i]
	pos, neg := b.joinedTo(e.A), b.joinedTo(e.B)
	var up, low bool
	for _, k := range b.s.sources {
		if s := &b.s.Network.Elements[k]; k != i && s.Source.Sort == "battery" {
			up, low = up || pos[s.A], low || neg[s.B]
		}
	}
	return up && low
}

// joinedTo is always of one node, which is asked in every round.
func (b *bounder) joinedTo(node int) []bool {
	seen, ok := b.joined[node]
	if !ok {
		if b.joined == nil {
			b.joined = map[int][]bool{}
		}
		seen = b.always(node)
		b.joined[node] = seen
	}
	return seen
}

// always marks what is joined to a node in all positions.
func (b *bounder) always(from int) []bool {
	n := b.s.Network
	seen := make([]bool, n.Nodes)
	seen[from] = true
	for todo := []int{from}; len(todo) > 0; {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range n.At[v] {
			if e := &n.Elements[i]; b.stays(e) && !seen[e.A+e.B-v] {
				seen[e.A+e.B-v] = true
				todo = append(todo, e.A+e.B-v)
			}
		}
	}
	return seen
}

// stays: conducts in all positions that are bounded here.
func (b *bounder) stays(e *network.Element) bool {
	if e.Kind == network.Contact && e.Gate.By == network.Hand {
		return b.p.Throws[e.Device] == e.Gate.Throw
	}
	return fixed(e)
}
