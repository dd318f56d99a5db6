package rules

import (
	"fmt"

	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "ground/overloaded",
	Severity: finding.Error,
	Summary:  "a shared return wire, stud or bus carries more than its ampacity or limit with everything on that can be on",
	Why: "Returns are shared, and nobody adds them up: each circuit is fused for its own feed, and no fuse sees the sum " +
		"that comes back through one strap or stud.",
	Needs: "For a wire what wire/undersized needs; for a stud or bus its `limit` (with none it is not judged: its maker says). " +
		"What goes through at once is the worst of every position that the operator can make; a bound where they are too many to solve each.",
	Limits: []Limit{
		{"", "the wire's ampacity", "33 CFR 183.425", "Table 5 and note 1", "seen (note 1 in part from memory)"},
		{"", "the stud's or bus's declared limit", "the part's maker", "", "as declared"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/undersized", "ground/crowded"},
	Bad: `harness returns { system 12 V; practice land; wire gxl }
zone  cab   { ambient -20..40 degC }
place shelf in cab
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 30 A; family post; covered }
protection fuse f2  { at shelf; rating 30 A; family post; covered }
load heater left    { at shelf; draws 240 W; least 9 V; meant always }
load heater right   { at shelf; draws 240 W; least 9 V; meant always }
ground bus b1       { at shelf; ways 4; size M6; limit 100 A }
wire w1 main.pos  -> f1.in     6 mm2 red   0.15 m
wire w2 main.pos  -> f2.in     6 mm2 red   0.15 m
wire w3 f1.out    -> left.pos  6 mm2 red   1 m
wire w4 f2.out    -> right.pos 6 mm2 red   1 m
wire w5 left.neg  -> b1        6 mm2 black 1 m
wire w6 right.neg -> b1        6 mm2 black 1 m
wire w7 b1        -> main.neg  2.5 mm2 black 1 m  # want ground/overloaded
mode warm { for 30 min }
`,
	Good: `harness returns { system 12 V; practice land; wire gxl }
zone  cab   { ambient -20..40 degC }
place shelf in cab
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 30 A; family post; covered }
protection fuse f2  { at shelf; rating 30 A; family post; covered }
load heater left    { at shelf; draws 240 W; least 9 V; meant always }
load heater right   { at shelf; draws 240 W; least 9 V; meant always }
ground bus b1       { at shelf; ways 4; size M6; limit 100 A }
wire w1 main.pos  -> f1.in     6 mm2 red   0.15 m
wire w2 main.pos  -> f2.in     6 mm2 red   0.15 m
wire w3 f1.out    -> left.pos  6 mm2 red   1 m
wire w4 f2.out    -> right.pos 6 mm2 red   1 m
wire w5 left.neg  -> b1        6 mm2 black 1 m
wire w6 right.neg -> b1        6 mm2 black 1 m
wire w7 b1        -> main.neg  10 mm2 black 1 m
mode warm { for 30 min }
`,
	Watch: watchPoints,
	Check: checkGroundOverloaded,
})

func checkGroundOverloaded(c *Context) {
	for _, w := range c.Harness.Wires {
		if !w.Bound() || !c.Shared(w) {
			continue
		}
		f := c.Wire(w)
		const nothing = 1e-3
		switch {
		case f.WorstA == nil, *f.WorstA < nothing, c.tooHotThere(w):
		case f.Ampacity == nil:
			c.WaitForAmpacity(w)
		case *f.WorstA > f.Ampacity.Amps:
			c.undersized(w, "brings back", f.Ampacity)
		}
	}
	for _, d := range c.Harness.Devices {
		if limit, ok := d.SI("limit"); ok && d.Is(kinds.Ground, "stud", "bus") {
			c.point(d, limit)
		}
	}
}

// watchPoints watches the ground studs and buses of a declared limit.
func watchPoints(c *Context) func(*states.Point) {
	return c.watchThrough(func(d *harness.Device) bool { return d.Is(kinds.Ground, "stud", "bus") })
}

// point judges a ground stud or bus by what goes through it at once: half of
// all that its wires and its bond bring in and take away.
func (c *Context) point(d *harness.Device, limit float64) {
	s := c.throughAtWorst(d.Terminals[0].Index)
	if s.amps <= limit*(1+1e-9) {
		return
	}
	f := finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` gathers %s with everything on that can be on, and its limit is %s", d.Name, amps(s.amps), amps(limit)),
		Measured: &s.amps, Limit: &limit, Unit: "A", Source: "the part's own limit",
	}
	if s.at != nil {
		f.Figures = append(f.Figures, "worst position: "+where(s.at.Figure()))
	}
	c.Report(f)
}
