package rules

import (
	"fmt"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "tap/overloaded",
	Severity: finding.Error,
	Summary:  "a borrowed circuit carries more than its device does lastingly, its own loads and the new ones together",
	Why: "The machine's maker sized the circuit for its own loads. What is borrowed comes on top, and when the fuse opens " +
		"it takes the maker's loads with it: the lamps, the gauges, the pump.",
	Needs: "`behind` and `carries`. The current is the worst of every position that the operator can make, cranking left out. " +
		"A device without a place is taken to sit where it is not hot: `behind fuse 10 A at PLACE` names it, else the tap's own place counts.",
	Limits: []Limit{
		{"land", "80 % of the rating, 60 % in a zone of 60 degC or more, a warning; 100 % an error", "common practice", "body-builder practice", "common practice"},
		{"cfr183", "80 % of the rating a warning; 100 % an error", "common practice", "", "common practice"},
		{"ac43", "80 % of the rating a warning (the clause speaks of generators); 100 % an error", "AC 43.13-1B", "11-35", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/loaded", "tap/forbidden", "tap/unprotected"},
	Bad: shed("", `supply tap dash   { at shelf; behind fuse 10 A; carries 6 A; live on; serves accessory; gauge 2.5 mm2; run 1 m }  # want tap/overloaded
load led marker   { at shelf; draws 27 W; least 9 V }
wire w4 dash.out   -> marker.pos 2.5 mm2 brown 1 m
wire w5 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Good: shed("", `supply tap dash   { at shelf; behind fuse 15 A; carries 6 A; live on; serves accessory; gauge 2.5 mm2; run 1 m }
load led marker   { at shelf; draws 27 W; least 9 V }
wire w4 dash.out   -> marker.pos 2.5 mm2 brown 1 m
wire w5 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Watch: watchTaps,
	Check: checkTapOverloaded,
})

func watchTaps(c *Context) func(*states.Point) { return c.watchLasting(tapped) }

func checkTapOverloaded(c *Context) {
	for _, x := range c.kept.([]lasting) {
		d := c.Network.Elements[x.element].Fuse
		for _, setting := range []string{"behind", "carries"} {
			if !d.Of.Has(setting) {
				c.Wait(d.Name, finding.Need{Name: d.Name, Setting: setting}, d.Of.Origin.Place())
			}
		}
		if l := c.steadyLimit(d); d.RatingA > 0 && len(d.Of.Terminals[0].Wires) > 0 {
			if s := c.steady(x); s.amps > d.RatingA*l.Value/100*(1+1e-9) {
				c.tapOverloaded(d, s)
			}
		}
	}
}

func (c *Context) tapOverloaded(d *network.Device, s steadiest) {
	l, severity := c.steadyLimit(d), finding.Warning
	if full, ok := c.Practice.Limit("device_load", "error"); ok && s.amps > d.RatingA*full.Value/100*(1+1e-9) {
		l, severity = full, finding.Error
	}
	limit := d.RatingA * l.Value / 100
	f := finding.Finding{
		Severity: severity, At: d.Of.Origin.Place(), Subject: d.Name,
		Message: fmt.Sprintf("the circuit behind `%s` carries %s in all, %s %% of its %s, and %s %% is allowed", d.Name, amps(s.amps),
			number(100*s.amps/d.RatingA), sized(d), number(l.Value)),
		Measured: &s.amps, Limit: &limit, Unit: "A", Source: source(l.Source),
	}
	if own, ok := d.Of.SI("carries"); ok {
		f.Figures = append(f.Figures, "of it the machine's own: "+amps(own))
	}
	if s.at != nil {
		f.Figures = append(f.Figures, "worst position: "+where(s.at.Figure()))
	}
	f.Figures = append(f.Figures, "borrow a coil's current alone, and feed the load from the battery by a relay")
	c.Report(f)
}
