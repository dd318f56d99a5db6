package rules

import (
	"fmt"
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "device/ignition",
	Severity: finding.Error,
	Summary:  "a switch, relay, motor or breaker among fuel vapour with no note that it is ignition-protected",
	Why: "A contact that opens and a brush that runs make sparks. Petrol vapour is heavier than air and gathers in a bilge " +
		"or a tank box, and one spark is enough.",
	Needs: "A zone with `exposure fuel`, the device's place, and a `note` that holds the word ignition, as in \"ignition-protected\", where its maker says so. " +
		"Fuses, lamps, diodes, connectors and solenoids are not judged; a panel is where one of its ways is a breaker.",
	Limits: []Limit{
		{"", "ignition-protected devices among petrol vapour", "33 CFR 183.410", "(a)", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"device/unsealed", "bundle/hot-surface"},
	Bad:     bilgePump("", "  # want device/ignition"),
	Good:    bilgePump("; note \"ignition-protected\"", ""),
	Check:   checkIgnition,
})

// bilgePump is a pump in a petrol boat's bilge.
func bilgePump(note, want string) string {
	return `harness launch { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
zone  bilge { ambient 0..40 degC; exposure fuel }
place shelf in dry
place sump  in bilge
bundle b1 shelf -> sump 1.2 m { cover loom_pa; clamp every 400 mm; through none }
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load motor pump     { at sump; draws 3 A; drives pump; least 9 V; meant always` + note + ` }` + want + `
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> pump.pos 2.5 mm2 red
wire w3 pump.neg -> main.neg 2.5 mm2 black
mode pumping { for 1 h }
`
}

func checkIgnition(c *Context) {
	fuel := func(z *harness.Zone) bool { return z.Exposed["fuel"] }
	for _, d := range c.Harness.Devices {
		if !sparks(d) || strings.Contains(strings.ToLower(d.Word("note")), "ignition") || !c.inZone(d, fuel) {
			continue
		}
		c.Report(finding.Finding{
			At: d.Origin.Place(), Subject: d.Name, Source: "33 CFR 183.410 (a) (from memory)",
			Message: fmt.Sprintf("`%s` makes sparks among the fuel vapour of `%s`, and no note says that it is ignition-protected", d.Name, d.At.Zone.Name),
			Related: []finding.Related{{Place: d.At.Zone.Origin.Place(), Message: "the zone with fuel vapour"}},
			Figures: []string{"move it out of the zone, or take one that is made for it and say so: note \"ignition-protected\""},
		})
	}
}

// sparks: a device with contacts that open, or brushes.
func sparks(d *harness.Device) bool {
	switch {
	case d.Is(kinds.Switch):
		return d.Kind.Name != "diode"
	case d.Is(kinds.Load, "motor", "starter"), d.Is(kinds.Protection, "breaker"):
		return true
	case d.Is(kinds.Protection, "panel"):
		for _, args := range d.Given("way") {
			if args.Word("device") == "breaker" {
				return true
			}
		}
	}
	return false
}
