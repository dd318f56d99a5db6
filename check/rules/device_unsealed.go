package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "device/unsealed",
	Severity: finding.Warning,
	Summary:  "a device other than a connector or splice in a wet zone with no `sealed`",
	Why:      "A switch or relay made for a dry cab fills with water on the first day: its contacts corrode, its lamp driver dies.",
	Needs: "`sealed`, and the device's place. A zone is wet with exposure wet or splash. A degree of protection whose second digit is 0 keeps no water out. " +
		"Return points (chassis, ground studs and buses) are bare metal by nature and are not judged, nor is a tap, which is no device; a `covered` stud or bus counts as under its lid.",
	Limits: []Limit{
		{"", "a second digit of 1 or more", "IEC 60529", "", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"connector/unsealed", "device/ignition"},
	Bad:     wetSwitch("rating 20 A; for led", "  # want device/unsealed"),
	Good:    wetSwitch("rating 20 A; for led; sealed IP67", ""),
	Check:   checkUnsealedDevices,
})

// wetSwitch is a lamp and its switch out in the rain.
func wetSwitch(settings, want string) string {
	return `harness yard { system 12 V; practice land; wire gxl }
zone  dry  { ambient 0..40 degC }
zone  rain { ambient 0..40 degC; exposure wet }
place shelf in dry
place post  in rain
bundle b1 shelf -> post 1.2 m { cover loom_pa; clamp every 400 mm; through none }
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
switch toggle s1    { at post; ` + settings + ` }` + want + `
load led lamp       { at post; draws 27 W; least 9 V; sealed IP67; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> s1.in    2.5 mm2 red
wire w3 s1.out   -> lamp.pos 2.5 mm2 red   0.3 m
wire w4 lamp.neg -> main.neg 2.5 mm2 black
mode lit { closed s1; for 1 h }
`
}

func checkUnsealedDevices(c *Context) {
	for _, d := range c.Harness.Devices {
		if !sealable(d) || keepsWaterOut(d, "sealed") || !c.inZone(d, isWet) {
			continue
		}
		c.Report(finding.Finding{
			At: d.Origin.Place(), Subject: d.Name, Source: "common practice: sealed devices outside; IEC 60529 (from memory)",
			Message: fmt.Sprintf("`%s` sits in `%s`, which is wet, and is not `sealed`", d.Name, d.At.Zone.Name),
			Related: []finding.Related{{Place: d.At.Zone.Origin.Place(), Message: "the wet zone"}},
			Figures: []string{"take a sealed one, or move it to a dry place"},
		})
	}
}

// sealable: a device that water gets into.
func sealable(d *harness.Device) bool {
	switch {
	case d.Is(kinds.Supply, "tap"), d.Is(kinds.Join, "connector", "splice"), d.Is(kinds.Ground):
		return false
	case d.Is(kinds.Join):
		return !d.Covered
	}
	return true
}
