package rules

import (
	"fmt"
	"sync"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "supply/crank",
	Severity: finding.Warning,
	Summary:  "in a declared cranking mode an accessory carries load",
	Why:      "The starter needs all that a cold battery gives, and an accessory sees the voltage sag and come back with a kick.",
	Needs: "A mode with `engine cranking`. An accessory is a load that is neither the machine's own (`existing`), nor the starter, nor fed at start alone, nor " +
		"marked `critical` or `meant always`.",
	Since: "0.1.0", Related: []string{"switch/coil-volts"},
	Bad:   starting("ks.ign", "  # want supply/crank"),
	Good:  starting("ks.acc", ""),
	Check: checkCrank,
})

// starting is a battery with a starter behind its relay and key, and a lamp.
func starting(lamp, want string) string {
	return `harness start { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; sags 9.6 V; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
switch relay k1     { at shelf; contacts 200 A; coil 90 ohm; suppress resistor; for inductive; studs M8; covered }
switch key ks       { at shelf; rating 20 A; for inductive }
load starter turn   { at shelf; draws 0.8 kW }
load led lamp       { at shelf; draws 9 W; least 5 V }` + want + `
wire s1 main.pos  -> k1.30     35 mm2 sgx red   0.15 m
wire s2 k1.87     -> turn.pos  70 mm2 sgx red   0.5 m
wire s3 turn.neg  -> main.neg  70 mm2 sgx black 0.5 m
wire w1 main.pos  -> f1.in     2.5 mm2 red   0.15 m
wire w2 f1.out    -> ks.in     2.5 mm2 red   0.5 m
wire w3 ks.start  -> k1.86     2.5 mm2 red   0.5 m
wire w4 k1.85     -> main.neg  2.5 mm2 black 0.5 m
wire w5 ` + lamp + `    -> lamp.pos  2.5 mm2 red   1 m
wire w6 lamp.neg  -> main.neg  2.5 mm2 black 1 m
mode turning { key start; engine cranking; for 5 s }
mode idle    { key acc; for 5 min }
`
}

func checkCrank(c *Context) {
	said := map[*harness.Device]bool{}
	feeds := sync.OnceValue(c.newFeeds)
	for n, m := range c.Harness.Modes {
		if m.Engine != "cranking" {
			continue
		}
		p := c.Survey.Modes[n]
		for _, i := range c.loads() {
			e := &c.Network.Elements[i]
			if !e.Device.Is(kinds.Load) || e.Device.Is(kinds.Load, "starter") ||
				e.Device.Existing || e.Device.Has("critical") || e.Device.Has("meant") || said[e.Device] || !c.On(p, i) || feeds().onStart(i) {
				continue
			}
			said[e.Device] = true
			c.Report(finding.Finding{
				At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: m.Name,
				Message: fmt.Sprintf("`%s` draws %s while the engine cranks in %s", e.Name, amps(p.Amps(i)), m.Name),
				Figures: []string{"feed it where the key drops it out at start, or mark it `critical` if it must stay on"},
			})
		}
	}
}
