package yard

import (
	"fmt"
	"strings"
)

var feedColours = []string{"red", "blue", "green", "yellow", "orange", "violet", "grey", "white", "pink", "brown", "tan", "turquoise"}

// circuit draws one circuit behind an outlet, of a shape that the seed chooses.
func (b *builder) circuit(o *outlet) {
	c := &Circuit{Device: o.name, Keyed: o.keyed, Hot: o.at.hot()}
	s := b.spots[b.r.IntN(len(b.spots))]
	if len(b.spots) > 2 {
		s = b.spots[2+b.r.IntN(len(b.spots)-2)]
	}
	c.At = s.name
	d := &drawn{builder: b, c: c, o: o, at: s, colour: feedColours[len(b.Circuits)%len(feedColours)]}
	b.Circuits = append(b.Circuits, c)
	room := b.mostA - b.totalA
	if room < 6 {
		room = 0.6 // the harness is full: only small things yet
	}
	d.room = room
	d.draw()
	b.totalA += c.DesignA
}

// drawn is a circuit while it is drawn.
type drawn struct {
	*builder
	c      *Circuit
	o      *outlet
	at     *spot
	colour string
	room   float64
	coilA  float64 // of the circuit's own relay
}

func (d *drawn) draw() {
	switch n := d.r.IntN(100); {
	case n < 15 && d.o.keyed:
		d.plain()
	case n < 55:
		d.switched()
	case n < 72 && d.at != d.board && d.o.at == d.board:
		d.relayed()
	case n < 79:
		d.twoThrows()
	case n < 86 && d.o.at == d.board && d.o.keyed:
		d.changeOver()
	case n < 92:
		d.eitherSwitch()
	case n < 96 && d.SystemV > 12 && d.o.keyed:
		d.rail()
	case n < 98 && !d.o.link:
		d.coasting()
	default:
		d.switched()
	}
}

// loads chooses one to three loads and the device's rating for them.
func (d *drawn) loads(most int) {
	kind := d.kindOf()
	for d.o.link && kind == "motor" {
		kind = d.kindOf() // a link is no guard for a motor that is held
	}
	n := 1
	if kind == "led" || kind == "bulb" {
		n = 1 + d.r.IntN(most)
	}
	amps := d.builder.draw(kind, d.room/float64(n)/peak)
	for range n {
		d.c.Loads = append(d.c.Loads, d.load(kind, d.at, amps, d.SystemV, d.o.keyed))
	}
	d.rated(amps*float64(n), kind)
	if kind == "motor" {
		d.start(d.c.Loads[0], amps, d.c.RatingA, d.o.breaker)
	} else if d.critical && n == 1 && amps < 0.6 && (kind == "led" || kind == "module") && d.chance(40) {
		b, c := d.builder, d.c
		b.later = append(b.later, func() { b.vital(c) })
	}
}

// vital marks a load whose drop must be small, where little else draws.
func (b *builder) vital(c *Circuit) {
	const mostA = 4
	if b.totalA < mostA {
		c.Loads[0].Set("critical", "")
		c.Critical = true
	}
}

func (d *drawn) rated(amps float64, kind string) {
	d.c.DesignA = amps*peak + d.coilA
	d.c.RatingA = atLeast(bladeA, d.c.DesignA/d.share(d.o.at))
	if strings.HasPrefix(d.o.name, "f") {
		d.c.RatingA = atLeast(bladeA, max(5, d.c.RatingA)) // breakers begin there
	}
	d.o.rate(d.c.RatingA)
}

func (d *drawn) demand(share float64) demand {
	return demand{amps: d.c.DesignA, ratingA: d.c.RatingA, dropV: d.volts.feed * share, breaker: d.o.breaker, link: d.o.link}
}

// lay adds a feed wire to the circuit.
func (d *drawn) lay(from string, s *spot, to string, t *spot, share float64) *Wire {
	w := d.run(from, s, to, t, d.demand(share), d.colour)
	d.c.Feeds = append(d.c.Feeds, w)
	return w
}

// reach brings the feed to the loads and their current home. From is live where
// the circuit is on.
func (d *drawn) reach(from string, s *spot) {
	b, loads := d.builder, d.c.Loads
	if s != d.at && d.chance(35) {
		from, s = d.plugged(from, s), d.at
	}
	if len(loads) > 1 {
		sp := b.add("join splice", b.name("sp"), d.at)
		if d.at.wet() || d.chance(30) {
			sp.Set("seal", "IP67")
		}
		d.lay(from, s, sp.Name, d.at, 0.6)
		from, s = sp.Name, d.at
		d.c.Splice = sp
	}
	ground := b.ground(d.at, len(loads), d.c.DesignA, d.c.RatingA, d.o.keyed)
	home := d.at
	for _, l := range loads {
		w := d.lay(from, s, l.Name+".pos", d.at, 0.6)
		d.c.Ends = append(d.c.Ends, w)
		d.c.Returns = append(d.c.Returns, b.run(l.Name+".neg", d.at, ground, home, demand{amps: d.c.DesignA, ratingA: d.c.RatingA, dropV: d.volts.back / 2, breaker: d.o.breaker, link: d.o.link}, "black"))
	}
	if d.chance(30) && len(loads) == 1 && d.pigtailFits(d.c.Ends[len(d.c.Ends)-1]) {
		loads[0].Set("lead", d.c.Ends[len(d.c.Ends)-1].Gauge)
	}
	if d.chance(15) {
		loads[0].Set("fuse", fmt.Sprintf("most %g A", d.c.RatingA))
	}
	if d.c.Splice != nil && d.chance(60) {
		d.c.Splice.Set("takes", d.takes())
	}
}

// pigtailFits reports whether a load's own lead, in its wire's gauge, is
// protected: its insulation is taken as 90 degC.
func (d *drawn) pigtailFits(w *Wire) bool {
	for _, s := range d.sizes() {
		if s.String() == w.Gauge {
			r, ok := d.limits.DeviceAmpacity(s.AreaMM2(), 90, d.at.mostC)
			return ok && r.Amps >= d.c.RatingA
		}
	}
	return false
}

// takes is a range of gauges that all wires of the circuit are in.
func (d *drawn) takes() string {
	if d.Metric {
		return "0.75 mm2..120 mm2"
	}
	return "22 AWG..4/0 AWG"
}

// plug is a connector that the circuits of a place go through.
type plug struct {
	item *Item
	used int
}

// plugged takes the feed through the place's connector: the live half carries
// the female contacts.
func (d *drawn) plugged(from string, s *spot) string {
	b, p := d.builder, d.at.plug
	if p == nil || p.used == 6 {
		p = &plug{item: b.add("join connector", b.name("x"), d.at).Set("ways", "6").Set("lock", "").Set("limit", "40 A")}
		if d.at.wet() || d.chance(30) {
			p.item.Set("seal", "IP67")
		}
		if d.chance(50) {
			p.item.Set("takes", d.takes())
		}
		d.at.plug = p
	}
	p.used++
	if d.chance(50) {
		p.item.Add("way", fmt.Sprintf("%d %q", p.used, "circuit "+d.c.Device))
	}
	d.lay(from, s, fmt.Sprintf("%s.female.%d", p.item.Name, p.used), d.at, 0.5)
	d.c.Plug = p.item
	return fmt.Sprintf("%s.male.%d", p.item.Name, p.used)
}
