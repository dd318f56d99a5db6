package rules

import (
	"fmt"
	"math"
	"sync"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "protection/loaded",
	Severity: finding.Error,
	Summary:  "steady current through a device above the share of its rating that it carries lastingly",
	Why: "A fuse that is worked near its rating holds for months, ages, and opens on the coldest or the hottest day. " +
		"Then a bigger one goes in, and the wire loses its protection.",
	Needs: "The rating and the place's ambient; a device without a place is taken to sit where it is not hot. The current is the worst of every position that the operator can make, cranking left out. " +
		"A link has no rating and is not judged; a borrowed circuit's device is judged by tap/overloaded.",
	Limits: []Limit{
		{"land", "80 % of the rating, 60 % in a zone of 60 degC or more, a warning; 100 % an error", "common practice", "body-builder practice", "common practice"},
		{"cfr183", "80 % of the rating a warning; 100 % an error", "common practice", "", "common practice"},
		{"ac43", "80 % of the rating a warning (the clause speaks of generators); 100 % an error", "AC 43.13-1B", "11-35", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/undersized", "protection/panel", "protection/oversized"},
	Bad: shedWith(`protection fuse f2  { at shelf; rating 10 A; covered }  # want protection/loaded
load heater pad     { at shelf; draws 9 A at 12 V; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 red   0.15 m
wire w5 f2.out   -> pad.pos  2.5 mm2 red   1 m
wire w6 pad.neg  -> main.neg 2.5 mm2 black 1 m
`),
	Good: shedWith(`protection fuse f2  { at shelf; rating 15 A; covered }
load heater pad     { at shelf; draws 9 A at 12 V; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 red   0.15 m
wire w5 f2.out   -> pad.pos  2.5 mm2 red   1 m
wire w6 pad.neg  -> main.neg 2.5 mm2 black 1 m
`),
	Watch: watchLoaded,
	Check: checkLoaded,
})

// steadiest is the greatest lasting current of an element, and where it flows.
type steadiest struct {
	amps float64
	at   *states.Position
}

// lasting is a device that is judged, and its greatest lasting current.
type lasting struct {
	element int
	most    steadiest
}

func watchLoaded(c *Context) func(*states.Point) {
	return c.watchLasting(func(d *network.Device) bool { return d.RatingA != 0 && !tapped(d) })
}

// watchLasting keeps the greatest current of each device that is judged, cranking
// left out: it lasts seconds.
func (c *Context) watchLasting(judged func(*network.Device) bool) func(*states.Point) {
	var list []lasting
	for _, i := range c.fuseElements() {
		if judged(c.Network.Elements[i].Fuse) {
			list = append(list, lasting{element: i})
		}
	}
	c.kept = list
	return func(p *states.Point) {
		if p.Position.Engine == "cranking" {
			return
		}
		for k := range list {
			x := &list[k]
			if a := math.Abs(p.Amps(x.element)); a > x.most.amps {
				x.most = steadiest{a, &p.Position}
			}
		}
	}
}

func checkLoaded(c *Context) {
	fit := sync.OnceValue(c.newFitting)
	for _, x := range c.kept.([]lasting) {
		d, s := c.Network.Elements[x.element].Fuse, c.steady(x)
		if l := c.steadyLimit(d); s.amps > d.RatingA*l.Value/100*(1+1e-9) {
			c.loaded(d, s, l, fit)
		}
	}
}

// steady is a device's worst lasting current: of every position that was solved,
// or its bound where they were too many.
func (c *Context) steady(x lasting) steadiest {
	w := c.Survey.Worst[x.element]
	if w.Amps > x.most.amps && w.At != nil && w.At.Engine != "cranking" {
		return steadiest{w.Amps, w.At}
	}
	return x.most
}

func (c *Context) loaded(d *network.Device, s steadiest, l tables.Limit, fit func() *fitting) {
	severity := finding.Warning
	if full, ok := c.Practice.Limit("device_load", "error"); ok && s.amps > d.RatingA*full.Value/100*(1+1e-9) {
		l, severity = full, finding.Error
	}
	limit := d.RatingA * l.Value / 100
	f := finding.Finding{
		Severity: severity, At: deviceAt(d), Subject: d.Name,
		Message: fmt.Sprintf("`%s` carries %s lastingly, %s %% of its %s, and %s %% is allowed", d.Name, amps(s.amps),
			number(100*s.amps/d.RatingA), amps(d.RatingA), number(l.Value)),
		Measured: &s.amps, Limit: &limit, Unit: "A", Source: source(l.Source),
		Fix: fit().refit(d),
	}
	if s.at != nil {
		f.Figures = append(f.Figures, "worst position: "+where(s.at.Figure()))
	}
	if f.Fix == nil {
		f.Figures = append(f.Figures, "no rating carries it and protects what lies behind: share the load out, or take thicker wire")
	}
	c.Report(f)
}
