package rules

import (
	"fmt"
	"math"

	"hame/check/network"
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
	Needs: "For a wire what wire/undersized needs; for a stud or bus its `limit` (with none it is not judged: its maker says).",
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

// point judges a ground stud or bus: what its wires and its bond bring in goes
// through it, half of all that touches it.
func (c *Context) point(d *harness.Device, limit float64) {
	node := d.Terminals[0].Index
	sum := 0.0
	for _, i := range c.Network.At[node] {
		if k := c.Network.Elements[i].Kind; k == network.Wire || k == network.Joint {
			sum += math.Abs(c.Survey.Worst[i].Amps)
		}
	}
	through := sum / 2
	if through <= limit {
		return
	}
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` gathers %s with everything on that can be on, and its limit is %s", d.Name, amps(through), amps(limit)),
		Measured: &through, Limit: &limit, Unit: "A", Source: "the part's own limit",
	})
}
