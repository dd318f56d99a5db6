package yard

import (
	"fmt"
	"strings"

	"hame/lang/tables"
)

// feedAll chooses how the circuits are fed, and makes them.
func (b *builder) feedAll() {
	switch n := b.r.IntN(100); {
	case b.board == b.tray && b.circuits < 4 && !b.crank:
		b.main = &feed{}
		for range b.circuits {
			b.circuit(b.inline())
		}
	default:
		_, out := b.bolt("main_fuse")
		b.main = out
		b.panels(out, n)
	}
	b.spareWire()
}

// inline is a fuse or breaker of its own for one circuit, at the battery.
func (b *builder) inline() *outlet {
	f := b.name("f")
	if !b.Metric && b.chance(20) {
		return b.link(f)
	}
	i := b.add("protection fuse", f, b.tray).Set("covered", "")
	if b.SystemV == 48 {
		i.Set("volts", "58 V")
	}
	// What the standards' common fuse interrupts is not always enough at the
	// battery itself.
	i.Set("breaks", "3000 A")
	if b.chance(25) && b.SystemV < 48 {
		i.Decl = "protection breaker"
		i.Set("volts", fmt.Sprintf("%g V", b.SystemV))
	}
	breaker := i.Is("protection breaker")
	return &outlet{
		breaker: breaker,
		name:    f, term: f + ".out", at: b.tray,
		rate: func(rating float64) {
			i.Set("rating", fmt.Sprintf("%g A", rating))
			b.short("main.pos", f+".in", 0.15, demand{amps: rating, ratingA: rating, dropV: b.volts.main, breaker: breaker}, b.tray, "red")
		},
	}
}

// link is a fusible link, four gauges thinner than the thinnest wire behind it.
func (b *builder) link(name string) *outlet {
	i := b.add("protection link", name, b.tray).Set("covered", "")
	return &outlet{name: name, term: name + ".out", at: b.tray, link: true, rate: func(rating float64) {
		c := b.Circuits[len(b.Circuits)-1]
		b.later = append(b.later, func() {
			thinnest := -9
			for _, w := range append(append([]*Wire{}, c.Feeds...), c.Returns...) {
				if n, ok := tables.ParseAWG(strings.TrimSuffix(w.Gauge, " AWG")); ok {
					thinnest = max(thinnest, n)
				}
			}
			i.Set("gauge", tables.Gauge(thinnest+4).String())
		})
		b.short("main.pos", name+".in", 0.15, demand{amps: rating, ratingA: rating * 2, dropV: b.volts.main}, b.tray, "red")
	}}
}

// outlet is where one circuit begins.
type outlet struct {
	name    string
	term    string
	at      *spot
	keyed   bool
	rate    func(ratingA float64)
	breaker bool
	link    bool
}

// panels feeds a panel, or two: one that is always live, one by the key.
func (b *builder) panels(from *feed, n int) {
	b.crankKey(from)
	switch {
	case n < 35 && !b.crank: // all of it always live
		b.panel(from, b.circuits, false)
	case n < 60 && b.circuits <= 6 && !b.crank && b.mostA > 20: // through the key itself
		b.panel(b.byKey(from), b.circuits, true)
	case n < 80 || b.circuits < 4:
		b.panel(b.byRelay(from, nil), b.circuits, true)
	default:
		b.twoPanels(from)
	}
}

// byKey brings the feed through the key's own contact.
func (b *builder) byKey(from *feed) *feed {
	k := b.add("switch key", "ignition", b.board)
	k.Set("covered", "").Set("studs", "M6")
	b.later = append(b.later, func() {
		k.Set("rating", fmt.Sprintf("%g A", atLeast(contA, b.asks())))
		if b.SystemV == 48 {
			k.Set("volts", "60 V")
		}
		d := demand{amps: b.totalA, ratingA: b.mainRating(), dropV: b.volts.main / 2}
		b.run(from.term, from.at, "ignition.in", b.board, d, "red")
	})
	return &feed{term: "ignition." + b.pick("ign", "acc"), at: b.board, keyed: true}
}

// asks is what the whole load asks of a contact.
func (b *builder) asks() float64 {
	sum := 3.0
	for _, c := range b.Circuits {
		if c.Keyed {
			sum += b.asksOf(c.Loads, c.DesignA)
		}
	}
	return sum * 1.25
}

// byRelay brings the feed through a relay whose coil the key or a borrowed
// circuit works.
func (b *builder) byRelay(from *feed, perm *Item) *feed {
	k := b.relay("k_main", b.board).Set("studs", "M8").Set("covered", "")
	b.later = append(b.later, func() {
		k.Set("contacts", fmt.Sprintf("%g A", atLeast(contA, max(b.asks(), 30))))
		d := demand{amps: b.totalA, ratingA: b.mainRating(), dropV: b.volts.main / 2}
		b.run(from.term, from.at, "k_main.30", b.board, d, "red")
	})
	b.coil(k, b.worked(perm))
	return &feed{term: "k_main.87", at: b.board, keyed: true}
}

// worked is what a main relay's coil hangs on: a borrowed circuit, or the key.
func (b *builder) worked(perm *Item) *feed {
	if perm == nil && !b.crank {
		t := b.add("supply tap", "borrowed", b.board).Set("behind", "fuse 10 A").Set("carries", "2 A")
		t.Set("live", b.pick("on", "acc", "on, acc")).Set("serves", b.pick("lighting", "accessory")).Set("gauge", b.small()).Set("run", "1 m").Set("existing", "")
		return &feed{term: "borrowed.out", at: b.board}
	}
	if b.Device("ignition") != nil {
		return &feed{term: "ignition.acc", at: b.board}
	}
	k := b.add("switch key", "ignition", b.board).Set("rating", "20 A").Set("for", "inductive").Set("tabs", "6.3").Set("covered", "")
	if b.SystemV == 48 {
		k.Set("volts", "60 V")
	}
	f := b.nextWay(perm, 5, "key")
	b.run(f, b.board, "ignition.in", b.board, demand{amps: 1, ratingA: 5, dropV: 0.2}, "violet")
	return &feed{term: "ignition." + b.pick("acc", "ign"), at: b.board}
}

// small is a gauge that a ten ampere device protects in any place.
func (b *builder) small() string {
	if b.Metric {
		return "2.5 mm2"
	}
	return "12 AWG"
}

// relay declares a relay; its contacts are sized later.
func (b *builder) relay(name string, s *spot) *Item {
	k := b.add("switch relay", name, s)
	k.Set("coil", fmt.Sprintf("%d ohm", int(80*b.SystemV*b.SystemV/144))).Set("suppress", b.pick("diode", "resistor")).Set("pulls", fmt.Sprintf("%g V", 0.55*b.SystemV))
	return k
}

// coil wires a relay's coil between a feed and the board's ground.
func (b *builder) coil(k *Item, f *feed) {
	at := b.board
	var ground string
	if k.Name == "k_main" {
		ground = b.ownGround(at)
	} else {
		ground = b.ground(at, 1, 0.3, 10, true)
	}
	b.run(f.term, f.at, k.Name+".86", at, demand{amps: 0.3, ratingA: 10, dropV: 0.2}, "yellow")
	b.run(k.Name+".85", at, ground, at, demand{amps: 0.3, ratingA: 10, dropV: 0.1}, "black")
}

// panel puts a panel in and hangs a number of circuits on it.
func (b *builder) panel(from *feed, circuits int, keyed bool) *Item {
	p := b.emptyPanel(b.name("aux"), from, keyed)
	for range circuits {
		b.circuit(b.wayOf(p, keyed))
	}
	b.fill(p)
	return p
}

func (b *builder) emptyPanel(name string, from *feed, keyed bool) *Item {
	p := b.add("protection panel", name, b.board).Set("feed", "stud M8").Set("covered", "").Set("limit", "400 A").Set("each", "30 A").Set("tabs", "6.3")
	p.Tall = true
	if b.SystemV == 48 {
		p.Set("volts", "58 V")
	}
	b.later = append(b.later, func() {
		d := demand{amps: b.totalA, ratingA: b.mainRating(), dropV: b.volts.main / 2}
		b.run(from.term, from.at, name+".feed", b.board, d, "red")
	})
	return p
}

// ways counts the ways of a panel.
func ways(p *Item) int {
	n := 0
	for _, s := range p.Settings {
		if s.Key == "way" {
			n++
		}
	}
	return n
}

func (b *builder) nextWay(p *Item, rating float64, label string) string {
	n := ways(p) + 1
	p.Add("way", fmt.Sprintf("%d fuse %g A %q", n, rating, label))
	return fmt.Sprintf("%s.%d", p.Name, n)
}

func (b *builder) wayOf(p *Item, keyed bool) *outlet {
	n := ways(p) + 1
	p.Add("way", "")
	at := len(p.Settings) - 1
	term := fmt.Sprintf("%s.%d", p.Name, n)
	return &outlet{name: term, term: term, at: b.board, keyed: keyed, rate: func(rating float64) {
		p.Settings[at].Value = fmt.Sprintf("%d fuse %g A %q", n, rating, "way "+term)
	}}
}

// fill adds a spare way or two.
func (b *builder) fill(p *Item) {
	for range b.r.IntN(3) {
		p.Add("way", fmt.Sprintf("%d spare", ways(p)+1))
	}
}

// twoPanels has one panel always live, and one by a relay that the key works.
func (b *builder) twoPanels(from *feed) {
	stud := b.add("join "+b.pick("stud", "bus"), "pos_bar", b.board).Set("size", "M8").Set("covered", "")
	b.later = append(b.later, func() {
		d := demand{amps: b.totalA, ratingA: b.mainRating(), dropV: b.volts.main / 2}
		b.run(from.term, from.at, stud.Name, b.board, d, "red")
	})
	out := &feed{term: stud.Name, at: b.board}
	perm := b.emptyPanel("perm", out, false)
	keyed := b.byRelay(out, perm)
	always := min(1+b.r.IntN(2), b.circuits-1)
	for range always {
		b.circuit(b.wayOf(perm, false))
	}
	b.fill(perm)
	b.panel(keyed, b.circuits-always, true)
}

// crankKey is the key, and the start circuit that it works.
func (b *builder) crankKey(from *feed) {
	if !b.crank {
		return
	}
	b.add("protection fuse", "key_fuse", b.board).Set("rating", "10 A").Set("covered", "")
	b.add("switch key", "ignition", b.board).Set("rating", "20 A").Set("for", "inductive").Set("tabs", "6.3").Set("covered", "")
	b.later = append(b.later, func() {
		b.run(from.term, from.at, "key_fuse.in", b.board, demand{amps: 3, ratingA: b.mainRating(), dropV: 0.1}, "red")
	})
	b.run("key_fuse.out", b.board, "ignition.in", b.board, demand{amps: 3, ratingA: 10, dropV: 0.1}, "violet")
	b.add("load solenoid", "start_sol", b.board).Set("draws", fmt.Sprintf("%g W", b.SystemV*2)).Set("suppress", "resistor")
	b.run("ignition.start", b.board, "start_sol.pos", b.board, demand{amps: 3, ratingA: 10, dropV: 0.2}, "white")
	b.run("start_sol.neg", b.board, b.ground(b.board, 1, 3, 10, true), b.board, demand{amps: 3, ratingA: 10, dropV: 0.1}, "black")
}

// spareWire is one that lies closed in the loom for a later use.
func (b *builder) spareWire() {
	if !b.chance(20) {
		return
	}
	w := &Wire{Item: Item{Name: b.name("spare")}, From: "capped", To: "capped", Gauge: b.small(), Colour: "grey", LengthM: 2}
	b.Wires = append(b.Wires, w)
}
