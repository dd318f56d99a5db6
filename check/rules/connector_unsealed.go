package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "connector/unsealed",
	Severity: finding.Error,
	Summary:  "a connector or splice in a wet zone with no `seal`; an error where it has constant power",
	Why: "Water and a standing voltage eat a contact in one winter: green salt creeps into the strands, and the " +
		"lamp goes dim, then dark. Without a standing voltage it takes longer.",
	Needs: "`seal` (or `sealed`), and the device's place. A zone is wet with exposure wet or splash. A degree of protection whose second digit is 0 keeps no water out. " +
		"Constant power: live with every switch open and the key off. A butt at a device's own `lead` is not judged: " +
		"where the device is sealed or sits in the wet, the crimp table asks for its sealing sleeve.",
	Limits: []Limit{
		{"", "a second digit of 1 or more", "IEC 60529", "", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"device/unsealed", "connector/live-male"},
	Bad:     wetPlug("limit 10 A", "  # want connector/unsealed"),
	Good:    wetPlug("limit 10 A; seal IP67", ""),
	Check:   checkUnsealedConnectors,
})

// wetPlug is a lamp out in the rain, on a plug.
func wetPlug(settings, want string) string {
	return `harness yard { system 12 V; practice land; wire gxl }
zone  dry  { ambient 0..40 degC }
zone  rain { ambient 0..40 degC; exposure wet }
place shelf in dry
place post  in rain
bundle b1 shelf -> post 1.2 m { cover loom_pa; clamp every 400 mm; through none }
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at post; draws 27 W; least 9 V; sealed IP67; meant always }
join connector x1   { at post; ways 2; ` + settings + ` }` + want + `
wire w1 main.pos    -> f1.in       2.5 mm2 red   0.15 m
wire w2 f1.out      -> x1.female.1 2.5 mm2 red
wire w3 x1.male.1   -> lamp.pos    2.5 mm2 red   0.3 m
wire w4 lamp.neg    -> x1.male.2   2.5 mm2 black 0.3 m
wire w5 x1.female.2 -> main.neg    2.5 mm2 black
mode lit { for 1 h }
`
}

func checkUnsealedConnectors(c *Context) {
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Join, "connector", "splice") && !keepsWaterOut(d, "seal", "sealed") && c.inZone(d, isWet) {
			c.unsealedConnector(d)
		}
	}
}

func (c *Context) unsealedConnector(d *harness.Device) {
	f := finding.Finding{
		Severity: finding.Warning, At: d.Origin.Place(), Subject: d.Name, Source: "common practice: sealed connectors outside; IEC 60529 (from memory)",
		Message: fmt.Sprintf("`%s` sits in `%s`, which is wet, and has no seal", d.Name, d.At.Zone.Name),
		Related: []finding.Related{{Place: d.At.Zone.Origin.Place(), Message: "the wet zone"}},
		Figures: []string{"take a sealed one, or move it to a dry place"},
	}
	for _, t := range d.Terminals {
		if len(t.Wires) > 0 && c.alwaysLive(t.Index) {
			f.Severity = finding.Error
			f.Figures = append([]string{"`" + t.FullName() + "` is live with every switch open: it corrodes day and night"}, f.Figures...)
			break
		}
	}
	c.Report(f)
}
