package states

import (
	"slices"

	"hame/check/network"
	"hame/lang/harness"
)

// culprit finds a switch of several poles and throws, or a change-over relay,
// that may be why a source's poles seem joined; nil where they do not, or
// where nothing can be split by. Of a relay the coil is told, else -1.
func (b *bounder) culprit() (d *harness.Device, coil int) {
	n := b.s.Network
	shorted := map[int32]bool{}
	for _, i := range b.s.sources {
		e := &n.Elements[i]
		if !b.supply[i].off && b.forest.comp[e.A] == b.forest.comp[e.B] {
			shorted[b.forest.comp[e.A]] = true
		}
	}
	if len(shorted) == 0 {
		return b.lonely(), -1
	}
	for _, i := range b.s.contacts {
		if e := &n.Elements[i]; b.can[i] && shorted[b.forest.comp[e.A]] && b.turns(e) {
			if e.Gate.By == network.Relay {
				return e.Device, e.Gate.Coil
			}
			return e.Device, -1
		}
	}
	return nil, -1
}

// lonely finds a switch between a battery and another source: to know it closed
// is to know how they share, or that the battery holds an alternator's volts.
func (b *bounder) lonely() *harness.Device {
	n := b.s.Network
	for _, i := range b.s.sources {
		if n.Elements[i].Source.Sort == "converter" || b.supply[i].off || b.backed(i) {
			continue
		}
		if d := b.between(i); d != nil {
			return d
		}
	}
	return nil
}

// between finds a switch that alone parts a source from a battery.
func (b *bounder) between(i int) *harness.Device {
	n := b.s.Network
	var far [][]bool // of each battery's poles
	for _, k := range b.s.sources {
		if s := &n.Elements[k]; k != i && s.Source.Sort == "battery" {
			far = append(far, b.joinedTo(s.A), b.joinedTo(s.B))
		}
	}
	near := [][]bool{b.joinedTo(n.Elements[i].A), b.joinedTo(n.Elements[i].B)}
	for _, k := range b.s.contacts {
		if !b.can[k] || !between(b.s.digests[k], near, far) {
			continue
		}
		c := &n.Elements[k]
		if c.Gate.By != network.Hand {
			continue
		}
		_, set := b.p.Throws[c.Device]
		if throws, _ := c.Device.SI("throws"); !set && throws <= 1 && b.helps(i, c.Device) {
			return c.Device
		}
	}
	return nil
}

// between: one end of a contact is joined to some poles, and the other to others.
func between(d digest, near, far [][]bool) bool {
	among := func(of [][]bool, v int32) bool {
		return slices.ContainsFunc(of, func(joined []bool) bool { return joined[v] })
	}
	return among(near, d.a) && among(far, d.b) || among(near, d.b) && among(far, d.a)
}

// helps: a source is backed with a switch closed.
func (b *bounder) helps(i int, d *harness.Device) bool {
	with := *b
	with.joined = nil
	with.p = &Position{Throws: map[*harness.Device]int{d: 1}}
	for k, v := range b.p.Throws {
		with.p.Throws[k] = v
	}
	return with.backed(i)
}

// turns: the contact is of a switch with several poles of several throws, or a
// rest contact, and where it stands has not been settled yet.
func (b *bounder) turns(e *network.Element) bool {
	switch e.Gate.By {
	case network.Hand:
		_, set := b.p.Throws[e.Device]
		return !set && e.Gate.Throw > 1 && len(e.Device.Terminals) > 3
	case network.Relay:
		_, set := b.in[e.Gate.Coil]
		return !set && e.Gate.Rest
	}
	return false
}

// split bounds each place of a switch or relay by itself.
func (s *Solver) split(p Position, in map[int]bool, splits int, d *harness.Device, coil int, on *desk) []bound {
	var list []bound
	if coil >= 0 {
		for _, pulled := range []bool{false, true} {
			now := map[int]bool{coil: pulled}
			for k, v := range in {
				now[k] = v
			}
			list = append(list, s.bounds(p, now, splits-1, on)...)
		}
		return list
	}
	throws, _ := d.SI("throws")
	first := 1 // open is less than closed, but for where being closed is known to help
	if throws <= 1 {
		first = 0
	}
	for throw := first; throw <= int(throws); throw++ {
		at := p
		at.Throws = map[*harness.Device]int{d: throw}
		for k, v := range p.Throws {
			at.Throws[k] = v
		}
		list = append(list, s.bounds(at, in, splits-1, on)...)
	}
	return list
}
