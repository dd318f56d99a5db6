package states

import (
	"math"
	"slices"

	"hame/check/network"
)

// line bounds what a part takes while it gets some volts: no more than g for
// each volt and c besides.
type line struct{ g, c float64 }

func (l line) plus(m line) line  { return line{l.g + m.g, l.c + m.c} }
func (l line) minus(m line) line { return line{l.g - m.g, l.c - m.c} }
func (l line) most(m line) line  { return line{max(l.g, m.g), max(l.c, m.c)} }

// behind is the line of the same part behind a resistance.
func (l line) behind(ohm float64) line { return line{l.g / (1 + l.g*ohm), l.c / (1 + l.g*ohm)} }

// from is the most that it takes from volts behind a resistance.
func (l line) from(volts, ohm float64) float64 { return (l.g*volts + l.c) / (1 + l.g*ohm) }

// lineOf bounds a load's law from above on all volts up to top, behind what
// resistance is its own: a resistance by itself, a current that grows faster
// than its volts (motors that drive fans) by the chord from nothing, one that
// grows slower (bulbs) by the tangent at the top. What has no such line keeps
// its bound.
func lineOf(l *network.LoadSpec, heat, top, own, bound float64) line {
	amps := mostAmps(l, heat, 0, top)
	switch {
	case top <= 0 || bound <= 0:
		return line{c: bound}
	case l.Ohm > 0 && l.Coil != nil:
		return line{g: 1 / (l.Ohm * heat)}.behind(own)
	case l.Ohm > 0:
		return line{g: 1 / l.Ohm}.behind(own)
	case l.Watts > 0 && l.Sort == "bulb" && top > l.AtV/2:
		const exponent = 0.55 // that of the law; half its volts are far above the cold filament
		return line{g: exponent * amps / top, c: (1 - exponent) * amps}.behind(own)
	case l.Amps > 0 && l.Watts == 0 && l.Power >= 1:
		return line{g: amps / top}.behind(own)
	}
	return line{c: bound}
}

// lines are what nodes and all beyond them take in and give out.
type lines struct {
	b         *bounder
	in, out   []line               // by rank
	exclusive map[[2]int32][2]line // by rank and group: what was counted of it
	highest   float64              // the volts that no part rises above
	// up and home are the resistances that all that one source gives flows through,
	// from its upper pole on and back to its lower one.
	up, home float64
}

// jointly lowers the bounds of edges beyond which there is no source. Whatever
// flows along one flows through all that lies between it and the sources, and
// so takes volts off what it flows for: many loads together do not each draw
// what they would alone. With one source its own resistance counts too.
func (b *bounder) jointly() {
	f := b.forest
	l := &lines{b: b, in: b.d.in, out: b.d.out, exclusive: b.d.exclusive, highest: slices.Max(b.top)}
	clear(l.exclusive)
	if b.lone >= 0 {
		e := b.s.digests[b.lone]
		l.up, l.home = b.trunk(f.ranks[e.a]), b.trunk(f.ranks[e.b])
	}
	for r, o := range f.own {
		l.in[r], l.out[r] = line{c: o.takes}, line{c: o.gives}
	}
	for k, i := range b.s.loads {
		if b.plain(i) {
			l.load(i, b.s.specs[k])
		}
	}
	for k := len(b.reaches) - 1; k >= 0; k-- {
		l.pass(b.reaches[k])
	}
	if b.lone >= 0 {
		e := b.s.digests[b.lone]
		s := &b.supply[b.lone]
		up, low := l.in[f.ranks[e.a]].from(s.volts, s.ohm+l.home), l.out[f.ranks[e.b]].from(s.volts, s.ohm+l.up)
		b.fore[b.lone] = min(b.fore[b.lone], max(0, min(up, low)))
	}
}

// plain: the load stands between a feed and the return side, and is never fed
// the wrong way round while its feed is live.
func (b *bounder) plain(i int) bool {
	e := b.s.digests[i]
	if e.aBack || !e.bBack || !(b.lo[i] > 0 && b.fore[i] > 0) {
		return false
	}
	if _, converter := b.s.outputs[i]; converter || e.simple {
		return !converter
	}
	spec := b.s.Network.Elements[i].Load
	return spec.Sort != "converter" && !(spec.StandbyA > 0 && b.p.Key == "off")
}

func (l *lines) load(i int, spec *network.LoadSpec) {
	b := l.b
	ranks := b.forest.ranks
	a, c := ranks[b.s.digests[i].a], ranks[b.s.digests[i].b]
	top := b.unloaded(i)
	heat, was := b.heat(i), line{c: b.fore[i]}
	l.in[a] = l.in[a].minus(was).plus(lineOf(spec, heat, top, b.ohm[c]-l.home, b.fore[i]))
	l.out[c] = l.out[c].minus(was).plus(lineOf(spec, heat, top, b.ohm[a]-l.up, b.fore[i]))
}

// unloaded is the most that a load can get with no drop at all.
func (b *bounder) unloaded(i int) float64 {
	if b.lone >= 0 {
		return b.supply[b.lone].volts
	}
	return b.hi[i]
}

// pass adds a block to the node from whose seat it is seen, and lowers the bounds
// of its edge.
func (l *lines) pass(q int32) {
	f := l.b.forest
	s := &f.seats[q]
	var in, out line
	if s.other >= 0 {
		far := f.seats[s.other].node
		in, out = l.edge(s, in.plus(l.in[far]), out.plus(l.out[far]))
	} else {
		for _, at := range f.loops[s.loop()].seats {
			if far := f.seats[at].node; at != q {
				in, out = in.plus(l.in[far]), out.plus(l.out[far])
			}
		}
	}
	if s.group != 0 {
		key := [2]int32{s.node, s.group}
		was := l.exclusive[key]
		now := [2]line{was[0].most(in), was[1].most(out)}
		l.exclusive[key] = now
		in, out = now[0].minus(was[0]), now[1].minus(was[1])
	}
	l.in[s.node], l.out[s.node] = l.in[s.node].plus(in), l.out[s.node].plus(out)
}

// edge lowers the bounds of an edge, and tells its lines from its near end.
func (l *lines) edge(e *seat, in, out line) (line, line) {
	b := l.b
	ohm := b.each[e.element]
	in, out = in.behind(ohm), out.behind(ohm)
	if e.oneWay && e.from {
		out = line{}
	} else if e.oneWay {
		in = line{}
	}
	volts, before := l.highest+b.offset, b.ohm[e.node]
	if b.lone >= 0 {
		volts, before = b.supply[b.lone].volts, before+b.supply[b.lone].ohm
	}
	most := func(x line, other float64) float64 { return x.from(volts+(before+other)*b.astray, before+other) }
	far, home := &b.fore[e.element], &b.back[e.element]
	if !e.from {
		far, home = home, far
	}
	*far, *home = min(*far, most(in, l.home)), min(*home, most(out, l.up))
	return in, out
}

// trunk is the resistance between a source's pole and the first node at which
// its current parts.
func (b *bounder) trunk(pole int32) float64 {
	f := b.forest
	ohm, at, by := 0.0, pole, none
	for at == pole || f.own[at] == (flows{}) {
		next, count := none, 0
		for q := f.first[at]; q < f.first[at+1]; q++ {
			if q != by && f.beyond[q] != (flows{}) {
				next = q
				count++
			}
		}
		if count != 1 || at == pole && b.serves(int(f.nodes[pole])) || f.seats[next].other < 0 {
			break
		}
		ohm += b.each[f.seats[next].element]
		by = f.seats[next].other
		at = f.seats[by].node
	}
	return ohm
}

// serves: a load stands at the very pole of a source.
func (b *bounder) serves(pole int) bool {
	n := b.s.Network
	return slices.ContainsFunc(n.At[pole], func(i int) bool {
		return n.Elements[i].Kind == network.Load && b.fore[i]+b.back[i] > 0
	})
}

// single is the only source that is on, -1 where there are none or several.
func (b *bounder) single() int {
	found := -1
	for _, i := range b.s.sources {
		if !b.supply[i].off {
			if found >= 0 {
				return -1
			}
			found = i
		}
	}
	if found >= 0 && (b.s.Network.Elements[found].Source.Sort != "battery" || math.IsInf(b.supply[found].volts, 0)) {
		return -1
	}
	return found
}

// strays sums what loads may carry the wrong way round while their feed is live.
func (b *bounder) strays() float64 {
	sum := 0.0
	for _, i := range b.s.loads {
		if b.lo[i] <= 0 {
			sum += min(b.fore[i], b.back[i])
		}
	}
	return sum
}
