package states

import (
	"math"

	"hame/check/network"
	"hame/lang/tables"
)

// loads bounds what every load and source carries by its own law.
func (b *bounder) loads() {
	n := b.s.Network
	for k, i := range b.s.loads {
		b.load(i, b.s.specs[k])
	}
	for _, i := range b.s.sources {
		b.source(i, &n.Elements[i])
	}
	for _, i := range b.s.sources {
		if e := &n.Elements[i]; e.Source.Sort == "converter" && e.Source.Input >= 0 {
			in := e.Source.Input
			b.fore[in], b.back[in] = drawnBy(e.Source, b.fore[i], b.lo[in]), 0
		}
	}
}

// source: what a battery is charged with comes from a higher voltage.
func (b *bounder) source(i int, e *network.Element) {
	s := &b.supply[i]
	b.fore[i], b.back[i] = min(s.gives, b.cap[i]), s.takes
	if s.off {
		b.fore[i], b.back[i] = 0, 0
	}
	if i == b.lone {
		b.back[i] = 0 // nothing else is there to charge it
	}
	if s.takes > 0 && b.s.Network.Return(e.B) {
		const rounding = 1e-6
		above := max(0, b.topOf(int32(e.A))-s.volts) + b.offset + rounding
		b.back[i] = min(b.back[i], above/s.ohm)
	}
}

// load: a load that bridges two feeds may be fed from either end, and one on a
// return that is off may see the difference of two returns the wrong way round.
func (b *bounder) load(i int, l *network.LoadSpec) {
	b.fore[i], b.back[i] = 0, 0
	e := b.s.digests[i]
	if !draws(l, b.p) || l.Sort == "converter" {
		return
	}
	if l.StandbyA > 0 && b.p.Key == "off" {
		l = &network.LoadSpec{Amps: l.StandbyA, AtV: l.AtV}
	}
	heat := b.heat(i)
	hi, ohm := b.hi[i], b.ohmTo(e.a)+b.ohmTo(e.b)
	if b.lone >= 0 {
		hi, ohm = min(hi, b.supply[b.lone].volts), ohm+b.supply[b.lone].ohm
	}
	top := atMost(l, heat, hi, ohm)
	most := mostAmps(l, heat, b.lo[i], top)
	wrong := mostAmps(l, heat, 0, min(b.offset, b.hi[i]))
	if e.bridges() {
		wrong = mostAmps(l, heat, 0, b.hi[i])
	}
	b.fore[i], b.back[i] = most, wrong
	if e.aBack && !e.bBack { // the wrong way round
		b.fore[i], b.back[i] = wrong, most
	}
}

// ohmTo is the resistance that lies between a node and all sources.
func (b *bounder) ohmTo(node int32) float64 { return b.ohm[b.forest.ranks[node]] }

// heat is how much a coil's resistance has grown since 20 degC.
func (b *bounder) heat(i int) float64 { return tables.CopperAt(1, b.s.ambient(i, b.p)) }

// currents bounds what flows from what sources and loads give and take. What
// their surroundings do not let them give is left out the second time.
func (b *bounder) currents() {
	for range 2 {
		b.own()
		b.forest.gather()
		b.clip()
	}
	for q := range b.forest.seats {
		if s := &b.forest.seats[q]; s.from {
			b.fore[s.element], b.back[s.element] = b.forest.through(int32(q))
		}
	}
	for _, blk := range b.forest.loops {
		b.forest.fetch(blk)
		if !b.meshed(blk) && !b.looped(blk) {
			b.passes(blk)
		}
	}
	b.astray = b.strays()
	b.own()
	b.jointly()
}

// passes bounds the edges of a block of loops by what it lets through.
func (b *bounder) passes(blk *block) {
	all := blk.crossing()
	for _, e := range blk.edges {
		b.fore[e.element], b.back[e.element] = all, all
	}
}

// own is what the nodes' own loads and sources give and take.
func (b *bounder) own() {
	own, ranks := b.forest.own, b.forest.ranks
	clear(own)
	b.wrong = 0
	for _, i := range b.s.ends {
		e := b.s.digests[i]
		f, r := b.fore[i], b.back[i]
		switch e.kind {
		case network.Source:
			f, r = r, f // what it gives comes out of A
		case network.Load:
			b.wrong += r
		}
		top, foot := &own[ranks[e.a]], &own[ranks[e.b]]
		*top = top.plus(flows{gives: r, takes: f})
		*foot = foot.plus(flows{gives: b.spared(i, f), takes: b.returned(i, r)})
	}
}

// spared is what a load gives back at its negative. A converter that raises the
// volts takes more in than it gives out, and what it gives out comes back to
// the same negative: only the difference goes on from there.
func (b *bounder) spared(i int, amps float64) float64 {
	out, ok := b.s.outputs[i]
	if !ok || b.lo[i] < converterLeast*b.s.Network.Elements[out].Source.TakesV {
		return amps
	}
	return max(0, amps-b.fore[out])
}

// returned is what comes back to a source's negative. To a converter that
// lowers the volts more comes back than goes on from there; but as long as it
// holds its volts it takes in a share of what it gives out, and that share is
// spared.
func (b *bounder) returned(i int, amps float64) float64 {
	in := b.input(i)
	if in == nil || !b.bears(i) {
		return amps
	}
	spec := b.s.Network.Elements[i].Source
	volts := spec.NominalV - b.supply[i].ohm*amps
	share := volts / (min(max(spec.Efficient, 0.01), 1) * b.hi[spec.Input])
	return amps * min(max(1-share, 0), 1)
}

// clip bounds loads and sources by what their surroundings give and take.
func (b *bounder) clip() {
	around, ranks := b.forest.around, b.forest.ranks
	for _, i := range b.s.ends {
		e := b.s.digests[i]
		a, c := around[ranks[e.a]], around[ranks[e.b]]
		fore, back := b.fore[i], b.back[i] // its own, that are part of what is around it
		switch e.kind {
		case network.Load:
			if _, converter := b.s.outputs[i]; converter {
				c.takes = a.gives // its own output takes some back
			}
			b.fore[i] = min(fore, max(0, min(a.gives, c.takes)-back))
			b.back[i] = min(back, max(0, min(c.gives, a.takes)-fore))
		case network.Source:
			if b.input(i) != nil {
				c.gives = a.takes // what it gives comes back through its own input too
			}
			b.fore[i] = min(fore, max(0, min(a.takes, c.gives)-back-b.relief[i]))
			b.back[i] = min(back, max(0, min(a.gives, c.takes)-fore))
			if spec := b.s.Network.Elements[i].Source; spec.Sort == "converter" && spec.Input >= 0 {
				b.fore[spec.Input] = min(b.fore[spec.Input], drawnBy(spec, b.fore[i], b.lo[spec.Input]))
			}
		}
	}
}

// apart finds how far the sources' negatives can lie from any point of the
// return side.
func (b *bounder) apart() float64 {
	n := b.s.Network
	most := 0.0
	for _, i := range b.s.sources {
		e := &n.Elements[i]
		if b.supply[i].off || !n.Return(e.B) {
			continue
		}
		drops := b.drops(e.B, either)
		for r, drop := range drops {
			if !(drop <= most) && !math.IsInf(drop, 1) && n.Return(int(b.forest.nodes[r])) {
				most = max(most, drop)
			}
		}
		b.d.give(drops)
	}
	return most
}
