package rules

import (
	"fmt"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "tap/unprotected",
	Severity: finding.Error,
	Summary:  "a wire from a tap that the borrowed circuit's device does not protect, with no device of its own",
	Why: "The fuse of a borrowed circuit was chosen for the machine's own wire. A thinner wire hung on it burns through " +
		"its insulation before that fuse opens.",
	Needs: "`behind`, and gauge, insulation and ambient of the wires from the tap. A wire within the distance that practice allows a device from its source, " +
		"and that ends at one, counts as protected by it. Between the ampacity and the limit here protection/oversized warns.",
	Limits: []Limit{
		{"land", "the host's rating above 125 % of the smaller of Table 5 at the insulation's class and at its 90 degC column, times the ambient factor (trade judgement, no published source)", "33 CFR 183.425", "Table 5", "seen"},
		{"cfr183", "above 150 %", "33 CFR 183.455", "(c)(1)", "seen"},
		{"ac43", "above 100 %", "AC 43.13-1B", "11-48", "seen"},
		{"", "a device within 178 mm, 1016 mm sheathed", "33 CFR 183.455", "(b)", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/oversized", "protection/far", "tap/overloaded"},
	Bad: shed("", `supply tap dash   { at shelf; behind fuse 30 A; carries 6 A; live on; serves accessory; gauge 6 mm2; run 1 m }
load led marker   { at shelf; draws 9 W; least 9 V }
wire w4 dash.out   -> marker.pos 1 mm2    brown 1 m  # want tap/unprotected
wire w5 marker.neg -> main.neg   6 mm2 black 1 m
`, ""),
	Good: shed("", `supply tap dash   { at shelf; behind fuse 30 A; carries 6 A; live on; serves accessory; gauge 6 mm2; run 1 m }
protection fuse f2 { at shelf; rating 5 A; covered }
load led marker   { at shelf; draws 9 W; least 9 V }
wire w4 dash.out   -> f2.in      6 mm2    brown 0.1 m
wire w5 f2.out     -> marker.pos 1 mm2    brown 1 m
wire w6 marker.neg -> main.neg   1 mm2    black 1 m
`, ""),
	Check: checkTapUnprotected,
})

func checkTapUnprotected(c *Context) {
	l, ok := c.Practice.Limit("device_wire", "error")
	if !ok {
		return
	}
	for _, i := range c.fuseElements() {
		if d := c.Network.Elements[i].Fuse; tapped(d) && d.RatingA > 0 {
			c.tapUnprotected(d, l)
		}
	}
}

// tapUnprotected finds the wires that a tap's device alone answers for and is
// too big for, the nearest to the tap first, and says it once.
func (c *Context) tapUnprotected(d *network.Device, l tables.Limit) {
	var weak []*harness.Wire
	for _, w := range c.Harness.Wires {
		if !c.answers(d, w) || c.endsAtDevice(d.Of, w) || c.tooHotThere(w) {
			continue
		}
		r, ok := c.DeviceAmpacity(w)
		if !ok {
			c.WaitForAmpacity(w)
		} else if d.RatingA > r.Amps*l.Value/100*(1+1e-9) {
			weak = append(weak, w)
		}
	}
	if len(weak) > 0 {
		c.reportUnprotected(d, weak, l)
	}
}

// answers reports whether a device is the one that answers for a wire.
func (c *Context) answers(d *network.Device, w *harness.Wire) bool {
	for _, p := range c.Protect.Cover(w).Paths {
		if facts.Answering(p) == d {
			return true
		}
	}
	return false
}

// endsAtDevice reports whether a wire leads from a tap to a device of its own
// that sits as near as practice asks: that one ends what the wire can draw.
func (c *Context) endsAtDevice(tap *harness.Device, w *harness.Wire) bool {
	name := "distance_bare"
	if w.Sheathed() {
		name = "distance_sheathed"
	}
	l, ok := c.Practice.Limit(name, "")
	if !ok || !w.HasLength || w.LengthM*1000 > l.Value {
		return false
	}
	from, to := w.Ends[0].Terminal, w.Ends[1].Terminal
	if to != nil && to.Device == tap {
		from, to = to, from
	}
	if from == nil || to == nil || from.Device != tap || len(to.Wires) != 1 {
		return false
	}
	for _, i := range c.Network.At[to.Index] {
		if e := &c.Network.Elements[i]; e.Wire != w && e.Kind != network.Fuse {
			return false
		}
	}
	return true
}

func (c *Context) reportUnprotected(d *network.Device, weak []*harness.Wire, l tables.Limit) {
	w := weak[0]
	r, _ := c.DeviceAmpacity(w)
	limit := r.Amps * l.Value / 100
	f := finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message: fmt.Sprintf("the %s ahead of `%s` does not protect `%s`, which may carry %s and has no device of its own",
			sized(d), d.Name, w.Name, amps(r.Amps)),
		Figures: []string{
			fmt.Sprintf("%s: %s", w.Name, r),
			shareOf(100*d.RatingA/r.Amps, l.Value),
			fmt.Sprintf("put a fuse or a breaker at `%s`", d.Of.Terminals[0].FullName()),
		},
		Measured: &d.RatingA, Limit: &limit, Unit: "A", Source: source(l.Source),
		Related: []finding.Related{{Place: d.Of.Origin.Place(), Message: "the borrowed circuit"}},
	}
	for _, other := range weak[1:] {
		f.Related = append(f.Related, finding.Related{Place: other.Origin.Place(), Message: "not protected either"})
	}
	c.Report(f)
}
