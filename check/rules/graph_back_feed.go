package rules

import (
	"fmt"
	"math"
	"slices"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "graph/back-feed",
	Severity: finding.Error,
	Summary:  "in some position a load is energised while its own feed switch is open, through another circuit or a motor that coasts",
	Why: "A radio plays with the key out because the brake pedal joins its feed to the hazard lamps; a relay stays in because the fan that it " +
		"switched off turns on and feeds its coil. Nothing is broken, so nobody finds it by looking for what is broken.",
	Needs: "The switches the right way round: a contact is meant to feed what lies at its `out`, 87, `acc` …, and what lies at its other end where a source lies right behind it or " +
		"nothing else feeds that end. Where several are meant to feed a load, any of them closed feeds it. " +
		"A load counts as energised from 2 % of its current and half a volt on, a relay while it is in. `coasts` on motors that turn on when switched off.",
	Limits: []Limit{{"", "a load is fed through its own switch alone", "common practice", "power dome (Y), ground dome (inverted Y), H and X patterns of sneak circuits", "seen; H in part from memory"}},
	Since:  "0.1.0", Related: []string{"graph/reversed", "ground/sneak", "supply/unattended"},
	Bad:   crossbar("stop.in   -> ign_bus", "stop.out  -> s_hazard.out", "  # want graph/back-feed"),
	Good:  crossbar("stop.in   -> s_hazard.in", "stop.out  -> s_hazard.out", ""),
	Watch: watchBackFeed,
	Check: checkBackFeed,
	Long:  true,
})

// crossbar is a brake switch between the circuit of the hazard lamps and
// another: the crossbar of an H.
func crossbar(in, out, want string) string {
	return `harness car { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main    { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1     { at shelf; rating 10 A; covered }
protection fuse f2     { at shelf; rating 10 A; covered }
switch key ignition    { at shelf; rating 16 A; tabs 6.3 }
switch toggle s_hazard { at shelf; rating 20 A; tabs 6.3 }
switch push stop       { at shelf; rating 20 A; tabs 6.3 }
join splice ign_bus    { at shelf }
load module radio      { at shelf; draws 20 W; least 9 V }` + want + `
load bulb lamp         { at shelf; draws 21 W; least 9 V; meant always }
wire w1 main.pos     -> f1.in       2.5 mm2 red   0.15 m
wire w2 main.pos     -> f2.in       2.5 mm2 red   0.15 m
wire w3 f1.out       -> ignition.in 2.5 mm2 red   0.5 m
wire w4 ignition.ign -> ign_bus     2.5 mm2 red   0.5 m
wire w5 ign_bus      -> radio.pos   2.5 mm2 red   0.5 m
wire w6 f2.out       -> s_hazard.in 2.5 mm2 red   0.5 m
wire w7 s_hazard.out -> lamp.pos    2.5 mm2 red   0.5 m
wire w8 ` + in + ` 2.5 mm2 red 0.5 m
wire w9 ` + out + ` 2.5 mm2 red 0.5 m
wire w10 radio.neg   -> main.neg    2.5 mm2 black 0.5 m
wire w11 lamp.neg    -> main.neg    2.5 mm2 black 0.5 m
mode driving { key on; engine off; closed s_hazard, stop; for 1 h }
`
}

// backFed is the first position in which a zone is fed from behind.
type backFed struct {
	load    int
	at      *states.Point
	coaster int   // the motor; -1 where it's another circuit
	also    []int // other loads there
}

// backFeeds is what was seen, by zone in the order in which it was.
type backFeeds struct {
	c        *Context
	meant    *facts.Meant
	positive bool // the live poles of the sources are their positives
	loads    []fedLoad
	coasters []int
	byZone   map[int]*backFed
	order    []int
}

// fedLoad is a load that is meant to be fed from a zone.
type fedLoad struct {
	element, zone int
	carries       bool // it stands for what a borrowed circuit carries already
}

func watchBackFeed(c *Context) func(*states.Point) {
	b := &backFeeds{c: c, meant: c.Meant(), byZone: map[int]*backFed{}}
	c.kept = b
	for _, i := range c.Sources() {
		b.positive = c.Network.Hot(i) == c.Network.Elements[i].A
	}
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if e.Load.Hidden() && e.Load.Sort != "carries" {
			continue
		}
		if z := b.zoneOf(i); z >= 0 && len(b.meant.Feeds(z)) > 0 {
			b.loads = append(b.loads, fedLoad{i, z, e.Load.Sort == "carries"})
			if e.Device.Has("coasts") {
				b.coasters = append(b.coasters, i)
			}
		}
	}
	return b.see
}

// zoneOf is the zone that a load is fed from.
func (b *backFeeds) zoneOf(load int) int { return b.meant.Zone(b.c.feedNode(load)) }

func (b *backFeeds) see(p *states.Point) {
	if len(b.loads) == 0 || p.Failed != nil || len(p.Unsettled) > 0 {
		return
	}
	live := b.meant.LiveIn(p)
	for _, l := range b.loads {
		if b.fromBehind(p, l, live) {
			b.take(l.element, -1, p)
		}
	}
	for _, m := range b.coasters {
		if !live[b.zoneOf(m)] && !b.c.On(p, m) {
			b.coasting(p, m, live)
		}
	}
}

// fromBehind: current flows, and neither the load's own feed nor the end by
// which it comes in is live as meant.
func (b *backFeeds) fromBehind(p *states.Point, l fedLoad, live []bool) bool {
	switch {
	case !l.carries && live[l.zone]: // as nearly all are that are on
		return false
	case !b.c.On(p, l.element) || math.Abs(p.Across(l.element)) < livelyV:
		return false
	case l.carries:
		return !b.c.tapLive(p, b.c.Network.Elements[l.element].Device)
	}
	entry := b.meant.Zone(b.hotEnd(p, l.element))
	return entry < 0 || !live[entry]
}

// livelyV: less does nothing to a load. The millivolts between two return points
// are none of another circuit's.
const livelyV = 0.5

// hotEnd is the end of a load that the current has on the feed's side.
func (b *backFeeds) hotEnd(p *states.Point, load int) int {
	e := &b.c.Network.Elements[load]
	if (p.Amps(load) > 0) == b.positive {
		return e.A
	}
	return e.B
}

// tapLive: a borrowed circuit is live by its own switch.
func (c *Context) tapLive(p *states.Point, tap *harness.Device) bool {
	for _, i := range c.of(network.Contact) {
		if e := &c.Network.Elements[i]; e.Gate.By == network.Tap && e.Device == tap {
			return c.Closed(p, i)
		}
	}
	return true
}

// coasting: a motor that turns on feeds whatever its terminal leads to.
func (b *backFeeds) coasting(p *states.Point, motor int, live []bool) {
	reached := b.c.Reach([]int{b.c.feedNode(motor)}, func(i, from int) bool {
		return !b.c.Network.Return(from) && (b.c.Passes(p, i, from) || b.mayClose(i, from, live))
	})
	for _, l := range b.loads {
		i := l.element
		e := &b.c.Network.Elements[i]
		if i != motor && !e.Load.Hidden() && !e.Device.Has("coasts") && reached.Has(b.c.feedNode(i)) && !live[l.zone] && !b.c.On(p, i) {
			b.take(i, motor, p)
		}
	}
}

// mayClose: a switch that feeds a zone from one that is dead. It can be closed as
// well, which no survey of what the sources feed tells apart.
func (b *backFeeds) mayClose(element, from int, live []bool) bool {
	e := &b.c.Network.Elements[element]
	z := b.meant.Zone(from)
	if z < 0 || e.Kind != network.Contact || e.Gate.By != network.Hand {
		return false
	}
	return slices.ContainsFunc(b.meant.Feeds(z), func(l facts.Link) bool { return l.Element == element && !live[l.From] })
}

// take keeps the first position of a zone, and the loads that go with it.
func (b *backFeeds) take(load, coaster int, p *states.Point) {
	z := b.zoneOf(load)
	switch old := b.byZone[z]; {
	case old == nil:
		b.byZone[z] = &backFed{load: load, at: p, coaster: coaster}
		b.order = append(b.order, z)
	case old.load != load && !slices.Contains(old.also, load):
		old.also = append(old.also, load)
	}
}

func checkBackFeed(c *Context) {
	b := c.kept.(*backFeeds)
	if c.Survey.Method != "all" && len(b.loads) > 0 {
		b.try()
	}
	for _, z := range b.order {
		c.backFed(b, b.byZone[z])
	}
}

func (c *Context) backFed(b *backFeeds, x *backFed) {
	e := &c.Network.Elements[x.load]
	name := "`" + e.Name + "`"
	if e.Load.Coil != nil {
		name = "the coil of " + name
	}
	opened := c.openNames(b, x)
	f := finding.Finding{At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.positionName(x.at)}
	switch {
	case x.coaster >= 0:
		motor := &c.Network.Elements[x.coaster]
		f.Message = fmt.Sprintf("%s runs on with %s open: `%s` coasts and feeds it", name, opened, motor.Name)
		f.Related = append(f.Related, finding.Related{Place: motor.Device.Origin.Place(), Message: "turns on and gives voltage"})
		from := c.feedNode(x.coaster)
		live := b.meant.LiveIn(x.at)
		route, _ := c.Route(from, func(node int) bool { return node == c.feedNode(x.load) }, func(i, at int) bool {
			return c.Passes(x.at, i, at) || b.mayClose(i, at, live)
		})
		f.Figures = []string{"the way: " + c.routeWords(from, route)}
	default:
		f.Message = fmt.Sprintf("%s is energised with %s open, through another circuit: %s V, %s", name, opened,
			number(math.Abs(x.at.Across(x.load))), milliamps(math.Abs(x.at.Amps(x.load))))
		if from, route, ok := c.feedPath(x.at, x.load); ok {
			f.Figures = []string{"the way: " + c.routeWords(from, route)}
			f.Related = append(f.Related, c.along(route, "on the way")...)
		}
	}
	if len(x.also) > 0 {
		f.Figures = append(f.Figures, "and with it: "+c.elementNames(x.also))
	}
	c.Report(f)
}

// openNames names the switches that are open.
func (c *Context) openNames(b *backFeeds, x *backFed) string {
	if e := &c.Network.Elements[x.load]; e.Load.Sort == "carries" {
		return "its own switch"
	}
	return c.elementNames(b.meant.Opened(x.at, b.zoneOf(x.load)))
}

func (c *Context) elementNames(list []int) string {
	var names []string
	for _, i := range list {
		if name := c.Network.Elements[i].Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return "its switch"
	}
	return enumerate(names)
}
