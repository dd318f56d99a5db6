package rules

import (
	"fmt"
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "switch/coil-volts",
	Severity: finding.Error,
	Summary:  "a coil that is switched on gets less than its pull-in voltage, or hardly more",
	Why: "A hot coil has more copper resistance and pulls in at a higher voltage than the data sheet's 20 degC says; a long thin feed and a cranking " +
		"battery give it less. The relay hums, drops out, or burns its contacts halfway.",
	Needs: "`coil` and `pulls` (0.65 of the system's volts where it is not said), and the ambient of the coil's zone; with none the coil is taken as at 20 degC, its own heat " +
		"is left out. Judged in every position in which closed contacts lead the coil's feed and return to a source: the declared modes, cranking among them, " +
		"and all that the operator can make. A coil that its own contact alone holds in is not asked to pull in.",
	Limits: []Limit{
		{"", "pull-in × (1 + 0.00393 × (T − 20))", "copper's temperature coefficient", "", "seen"},
		{"", "110 % of the least pull-in voltage, a warning", "a state's fleet electrical specification", "8.3", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/drop", "load/starved"},
	Bad: shed("\nzone  bay   { ambient 0..90 degC }\nplace block in bay", `switch relay k1   { at block; contacts 30 A; coil 96 ohm; pulls 10 V; suppress diode }  # want switch/coil-volts
load led marker   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out     -> k1.30      2.5 mm2 red   1 m
wire w5 f1.out     -> k1.86      2.5 mm2 red   1 m
wire w6 k1.85      -> main.neg   2.5 mm2 black 1 m
wire w7 k1.87      -> marker.pos 2.5 mm2 red   1 m
wire w8 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Good: shed("\nzone  bay   { ambient 0..90 degC }\nplace block in bay", `switch relay k1   { at block; contacts 30 A; coil 96 ohm; pulls 7.5 V; suppress diode }
load led marker   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out     -> k1.30      2.5 mm2 red   1 m
wire w5 f1.out     -> k1.86      2.5 mm2 red   1 m
wire w6 k1.85      -> main.neg   2.5 mm2 black 1 m
wire w7 k1.87      -> marker.pos 2.5 mm2 red   1 m
wire w8 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Watch: watchCoils,
	Check: checkCoils,
})

// pulling is where a coil that should be in has the least of what it wants.
type pulling struct {
	volts, wantsV, tempC float64
	point                *states.Point
}

func (p pulling) share() float64 { return p.volts / p.wantsV }

func watchCoils(c *Context) func(*states.Point) {
	least := map[int]pulling{}
	c.kept = least
	coils := c.coilElements()
	return func(p *states.Point) {
		for _, i := range coils {
			volts := math.Abs(p.Across(i))
			if !(volts > 0) {
				continue
			}
			tempC := c.SolvedC(i, &p.Position)
			now := pulling{volts, tables.CopperAt(c.Network.Elements[i].Load.Coil.PullsV, tempC), tempC, p}
			old, ok := least[i]
			if (!ok || now.share() < old.share()) && c.switchedOn(p, i) {
				least[i] = now
			}
		}
	}
}

// coilElements lists the coils of relays.
func (c *Context) coilElements() []int {
	var list []int
	for _, i := range c.loads() {
		if e := &c.Network.Elements[i]; e.Load.Coil != nil && e.Load.Coil.PullsV > 0 {
			list = append(list, i)
		}
	}
	return list
}

// switchedOn reports whether a coil should be in: closed contacts lead one of
// its ends to a source's live pole and the other to the return side. One that
// goes round in circles is graph/unsettled's.
func (c *Context) switchedOn(p *states.Point, coil int) bool {
	if slices.Contains(p.Unsettled, coil) {
		return false
	}
	e := &c.Network.Elements[coil]
	above, below := e.A, e.B
	if p.Across(coil) < 0 {
		above, below = below, above
	}
	live, back := func(n int) bool { return c.liveIn(p, n) }, c.Network.Return
	up, down := c.coilPasses(p, coil, true), c.coilPasses(p, coil, false)
	leads := func(from int, wanted func(int) bool, passes func(i, from int) bool) bool {
		_, ok := c.Route(from, wanted, passes)
		return ok
	}
	if back(above) || !back(below) && !leads(above, live, up) { // the positive pole is the grounded one
		return leads(above, back, up) && leads(below, live, down)
	}
	return leads(above, live, up) && leads(below, back, down)
}

// coilPasses is what leads a coil's current on: not its own contact, and diodes
// one way, against the current where up is set.
func (c *Context) coilPasses(p *states.Point, coil int, up bool) func(i, from int) bool {
	return func(i, from int) bool {
		x := &c.Network.Elements[i]
		switch {
		case x.Kind == network.Contact && x.Gate.By == network.Relay && x.Gate.Coil == coil:
			return false
		case x.Kind == network.Diode:
			return (from == x.B) == up
		}
		return c.Passes(p, i, from)
	}
}

// liveIn reports whether a node is the live pole of a source that has volts.
func (c *Context) liveIn(p *states.Point, node int) bool {
	for _, i := range c.Network.At[node] {
		if e := &c.Network.Elements[i]; e.Kind == network.Source && c.Network.Hot(i) == node && c.givesIn(p, e) {
			return true
		}
	}
	return false
}

// givesIn reports whether a source has volts in a position: an alternator has
// them while it turns, a converter while it is fed.
func (c *Context) givesIn(p *states.Point, s *network.Element) bool {
	switch s.Source.Sort {
	case "alternator":
		return p.Position.Engine == "idle" || p.Position.Engine == "running"
	case "converter":
		return p.Volts(s.A)-p.Volts(s.B) > 0
	}
	return true
}

func checkCoils(c *Context) {
	least := c.kept.(map[int]pulling)
	for _, i := range c.loads() {
		d := c.Network.Elements[i].Device
		if l := c.Network.Elements[i].Load; l.Coil != nil && !l.Known {
			c.Wait(d.Name, finding.Need{Name: d.Name, Setting: "coil"}, d.Origin.Place())
			continue
		}
		if now, ok := least[i]; ok {
			c.coilVolts(i, now)
		}
	}
}

func (c *Context) coilVolts(coil int, now pulling) {
	margin, ok := c.Practice.Limit("coil_margin", "")
	e := &c.Network.Elements[coil]
	severity, limit, origin := finding.Error, now.wantsV, "the relay's own `pulls`"
	switch {
	case now.volts < now.wantsV*(1-1e-9):
	case ok && now.volts < now.wantsV*margin.Value/100*(1-1e-9):
		severity, limit, origin = finding.Warning, now.wantsV*margin.Value/100, source(margin.Source)
	default:
		return
	}
	if !e.Device.Has("pulls") && severity == finding.Error {
		origin = "common practice: a relay pulls in at 0.65 of its volts"
	}
	c.Report(finding.Finding{
		Severity: severity, At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.statedName(now.point),
		Message: fmt.Sprintf("the coil of `%s` gets %s V where it is switched on, and pulls in from %s V at %s", e.Name,
			number(now.volts), number(now.wantsV), degrees(now.tempC)),
		Figures: []string{
			fmt.Sprintf("pull-in at 20 degC: %s V; copper at %s: × %.3f", number(e.Load.Coil.PullsV), degrees(now.tempC), tables.CopperAt(1, now.tempC)),
			"worst position: " + where(now.point.Position.Figure()),
		},
		Measured: &now.volts, Limit: &limit, Unit: "V", Source: origin,
	})
}
