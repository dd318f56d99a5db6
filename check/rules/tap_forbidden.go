package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "tap/forbidden",
	Severity: finding.Error,
	Summary:  "a tap on a circuit that serves a control module or a safety function, or that is pulsed or monitored",
	Why: "Brake lamps, steering, air bags and control modules must not share their fuse with anything that was added. A pulsed circuit " +
		"gives a load a chopped voltage, and a monitored one takes the added current for a fault and shuts the circuit down.",
	Needs: "`serves`. The circuit is taken as `drive steady` where nothing is said. A tap that no wire hangs on is not judged.",
	Limits: []Limit{
		{"", "none of control, safety, pwm, monitored", "common practice", "body-builder practice", "common practice, no source"},
	},
	Since:   "0.1.0",
	Related: []string{"tap/overloaded", "tap/unprotected"},
	Bad: shed("", `supply tap brake  { at shelf; behind fuse 15 A; carries 3 A; live on; serves safety; gauge 2.5 mm2; run 1 m }  # want tap/forbidden
load led marker   { at shelf; draws 9 W; least 9 V }
wire w4 brake.out  -> marker.pos 2.5 mm2 brown 1 m
wire w5 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Good: shed("", `supply tap dash   { at shelf; behind fuse 15 A; carries 3 A; live on; serves accessory; gauge 2.5 mm2; run 1 m }
load led marker   { at shelf; draws 9 W; least 9 V }
wire w4 dash.out   -> marker.pos 2.5 mm2 brown 1 m
wire w5 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Check: checkTapForbidden,
})

// forbidden says why a circuit must not be borrowed from, by its `serves` and
// its `drive`.
var forbidden = map[string]string{
	"control":   "serves a control module",
	"safety":    "serves a safety function",
	"pwm":       "is pulsed, and gives no steady voltage",
	"monitored": "is monitored: its driver takes the added current for a fault",
}

func checkTapForbidden(c *Context) {
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Supply, "tap") && len(d.Terminals[0].Wires) > 0 {
			c.tapForbidden(d)
		}
	}
}

func (c *Context) tapForbidden(d *harness.Device) {
	var reasons []string
	for _, setting := range []string{"serves", "drive"} {
		if why, ok := forbidden[d.Word(setting)]; ok {
			reasons = append(reasons, why)
		}
	}
	switch {
	case len(reasons) > 0:
		f := finding.Finding{
			At: d.Origin.Place(), Subject: d.Name, Source: "common practice: body-builder practice",
			Message: fmt.Sprintf("nothing may be borrowed from `%s`: it %s", d.Name, reasons[0]),
		}
		if len(reasons) > 1 {
			f.Figures = append(f.Figures, "besides, it "+reasons[1])
		}
		f.Figures = append(f.Figures, "borrow from an accessory or lighting circuit, or feed it from the battery by a fuse of its own")
		f.Related = append(f.Related, finding.Related{Place: d.Terminals[0].Wires[0].Origin.Place(), Message: "what is hung on it"})
		c.Report(f)
	case !d.Has("serves"):
		c.Wait(d.Name, finding.Need{Name: d.Name, Setting: "serves"}, d.Origin.Place())
	}
}
