package yard

import (
	"fmt"
	"strings"
)

// coasting has a motor that feeds back while it runs out, behind a diode that
// keeps that from the panel.
func (d *drawn) coasting() {
	b := d.builder
	amps := b.draw("motor", d.room/peak)
	m := b.load("motor", d.at, amps, d.SystemV, d.o.keyed).Set("coasts", "")
	d.c.Loads = []*Item{m}
	d.rated(amps, "motor")
	d.start(m, amps, d.c.RatingA, d.o.breaker)
	d.c.Switch = d.toggle(b.board, 1)
	di := b.add("switch diode", b.name("d"), b.board).Set("rating", fmt.Sprintf("%g A", atLeast(contA, d.c.DesignA*1.5)))
	d.lay(d.o.term, d.o.at, d.c.Switch.Name+".in", b.board, 0.3)
	d.lay(d.c.Switch.Name+".out", b.board, di.Name+".anode", b.board, 0.3)
	d.reach(di.Name+".cathode", b.board)
}

func (d *drawn) plain() {
	d.c.Sure = true
	d.loads(3)
	d.reach(d.o.term, d.o.at)
}

// toggle declares a switch for the circuit's loads.
func (d *drawn) toggle(s *spot, throws int) *Item {
	b := d.builder
	i := b.add("switch "+b.pick("toggle", "toggle", "push"), b.name("s"), s)
	rating := b.asksOf(d.c.Loads, d.c.DesignA) * 1.3
	sort := strings.TrimPrefix(d.c.Loads[0].Decl, "load ")
	if f, ok := ratedFor[sort]; ok && b.chance(50) {
		i.Set("for", f)
		rating = d.c.DesignA * 1.3
	}
	i.Set("rating", fmt.Sprintf("%g A", atLeast(contA, rating)))
	if b.SystemV == 48 {
		i.Set("volts", "60 V")
	}
	if throws > 1 {
		i.Set("throws", "2")
		b.throws = append(b.throws, i)
	} else {
		b.switches = append(b.switches, i)
	}
	if b.chance(50) {
		i.Set("tabs", "6.3")
	}
	return i
}

var ratedFor = map[string]string{"led": "led", "bulb": "bulb", "motor": "motor", "solenoid": "inductive"}

// asksOf is what loads ask of a contact.
func (b *builder) asksOf(loads []*Item, amps float64) float64 {
	most := 1.0
	for _, l := range loads {
		most = max(most, b.factor(strings.TrimPrefix(l.Decl, "load ")))
	}
	return amps * most
}

func (d *drawn) switched() {
	d.c.Sure = true
	d.loads(3)
	s := d.board
	if d.chance(30) {
		s = d.at
	}
	d.c.Switch = d.toggle(s, 1)
	d.lay(d.o.term, d.o.at, d.c.Switch.Name+".in", s, 0.4)
	d.reach(d.c.Switch.Name+".out", s)
}

// relayed works the loads by a relay whose coil hangs on the same device.
func (d *drawn) relayed() {
	b := d.builder
	d.c.Sure, d.coilA = true, 0.25
	d.loads(3)
	d.c.Relay = b.relay(b.name("k"), b.board)
	d.c.Relay.Set("contacts", fmt.Sprintf("%g A", atLeast(contA, b.asksOf(d.c.Loads, d.c.DesignA)*1.3)))
	if b.chance(50) {
		d.c.Relay.Set("tabs", "6.3")
	}
	k := d.c.Relay.Name
	s := b.add("switch toggle", b.name("s"), b.board).Set("rating", "5 A").Set("for", "inductive")
	if b.SystemV == 48 {
		s.Set("volts", "60 V")
	}
	b.switches = append(b.switches, s)
	d.c.Switch = s
	sp := b.add("join splice", b.name("sp"), b.board)
	if b.board.wet() {
		sp.Set("seal", "IP67")
	}
	d.lay(d.o.term, d.o.at, sp.Name, b.board, 0.2)
	d.lay(sp.Name, b.board, k+".30", b.board, 0.2)
	d.lay(sp.Name, b.board, s.Name+".in", b.board, 0.2)
	d.lay(s.Name+".out", b.board, k+".86", b.board, 0.2)
	small := demand{amps: 0.3, ratingA: d.c.RatingA, dropV: 0.1}
	b.run(k+".85", b.board, b.ground(b.board, 1, 0.3, d.c.RatingA, d.o.keyed), b.board, small, "black")
	d.reach(k+".87", b.board)
}

// twoThrows has a switch that puts one lamp or the other on.
func (d *drawn) twoThrows() {
	b := d.builder
	amps := b.draw("led", d.room/peak)
	two := []*Item{b.load("led", d.at, amps, d.SystemV, d.o.keyed), b.load("led", d.at, amps, d.SystemV, d.o.keyed)}
	d.c.Loads = two[:1]
	d.rated(amps, "led")
	s := d.toggle(b.board, 2)
	d.c.Switch = s
	d.lay(d.o.term, d.o.at, s.Name+".in", b.board, 0.4)
	d.both(two, s.Name+".out1", s.Name+".out2")
}

// both brings each of two loads its own feed from the board, and one ground.
func (d *drawn) both(two []*Item, first, second string) {
	d.c.Loads = two[:1]
	d.reach(first, d.board)
	d.c.Loads = two[1:]
	d.reach(second, d.board)
	d.c.Loads = two
}

// changeOver has a relay that takes one lamp off and puts the other on; its
// coil has a way of its own.
func (d *drawn) changeOver() {
	b := d.builder
	amps := b.draw("led", d.room/peak)
	two := []*Item{b.load("led", d.at, amps, d.SystemV, true), b.load("led", d.at, amps, d.SystemV, true)}
	d.c.Loads = two[:1]
	d.rated(amps, "led")
	k := b.relay(b.name("k"), b.board).Set("form", "change")
	k.Set("contacts", fmt.Sprintf("%g A", atLeast(contA, b.asksOf(two[:1], d.c.DesignA)*1.3)))
	d.c.Relay = k
	d.lay(d.o.term, d.o.at, k.Name+".30", b.board, 0.4)
	panel := b.Device(strings.Split(d.o.name, ".")[0])
	way := b.nextWay(panel, 5, "change over")
	s := b.add("switch toggle", b.name("s"), b.board).Set("rating", "5 A").Set("for", "inductive")
	if b.SystemV == 48 {
		s.Set("volts", "60 V")
	}
	b.switches = append(b.switches, s)
	b.run(way, b.board, s.Name+".in", b.board, demand{amps: 0.3, ratingA: 5, dropV: 0.1}, "grey")
	b.coil(k, &feed{term: s.Name + ".out", at: b.board})
	d.both(two, k.Name+".87", k.Name+".87a")
}

// eitherSwitch has two switches, each of which puts the lamp on through a diode
// of its own.
func (d *drawn) eitherSwitch() {
	b := d.builder
	amps := b.draw("led", min(d.room/peak, 2.5))
	d.c.Loads = []*Item{b.load("led", d.at, amps, d.SystemV, d.o.keyed)}
	d.rated(amps, "led")
	sp, out := b.name("sp"), b.name("sp")
	for _, s := range []string{sp, out} {
		i := b.add("join splice", s, b.board)
		if b.board.wet() {
			i.Set("seal", "IP67")
		}
	}
	d.lay(d.o.term, d.o.at, sp, b.board, 0.3)
	for range 2 {
		s := d.toggle(b.board, 1)
		di := b.add("switch diode", b.name("d"), b.board).Set("rating", fmt.Sprintf("%g A", atLeast(contA, d.c.DesignA*1.5)))
		d.lay(sp, b.board, s.Name+".in", b.board, 0.2)
		d.lay(s.Name+".out", b.board, di.Name+".anode", b.board, 0.2)
		d.lay(di.Name+".cathode", b.board, out, b.board, 0.2)
	}
	d.reach(out, b.board)
}

// rail has a converter that feeds one load at 12 V; its own limit is within the
// wire.
func (d *drawn) rail() {
	b := d.builder
	const railV, outA = 12.0, 10.0
	kind := b.pick("led", "module")
	amps := b.between(1, 6)
	l := b.load(kind, b.board, amps, railV, true)
	conv := b.add("supply converter", b.name("conv"), b.board)
	conv.Set("takes", fmt.Sprintf("%g V", b.SystemV)).Set("gives", "12 V").Set("output", fmt.Sprintf("%g A", outA))
	d.c.Loads, d.c.Conv = []*Item{l}, conv
	d.rated(amps*railV/b.SystemV/0.9, "module")
	d.lay(d.o.term, d.o.at, conv.Name+".in", b.board, 0.6)
	g := b.ground(b.board, 2, d.c.DesignA+amps, d.c.RatingA, true)
	d.c.Ends = append(d.c.Ends, b.run(conv.Name+".out", b.board, l.Name+".pos", b.board, demand{amps: outA, ratingA: outA, dropV: 0.2}, "pink"))
	b.run(conv.Name+".neg", b.board, g, b.board, demand{amps: outA, ratingA: d.c.RatingA, dropV: 0.2}, "black")
	d.c.Returns = append(d.c.Returns, b.run(l.Name+".neg", b.board, g, b.board, demand{amps: outA, ratingA: outA, dropV: 0.1}, "black"))
	d.c.At = b.board.name
}
