package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "terminal/uncovered",
	Severity: finding.Warning,
	Summary:  "a battery post, stud, bus or panel feed that is live with every switch open and not covered",
	Why: "No switch and often no fuse takes it off. A spanner from it to the frame draws the battery's whole " +
		"short-circuit current, through the ring on somebody's finger.",
	Needs: "Whether the device says `covered`: its live metal is under a boot, cap or lid. A stud is that of a device of any kind that declares one (`studs`, a bolted fuse's own); " +
		"tabs and screw terminals are not judged. Every switch is open, the key off, each relay at rest, and taps dead that are not live always. The pole on the return side is not judged.",
	Limits: []Limit{
		{"", "a boot, cap or guard on a stud that is live all the time", "33 CFR 183.445", "(b)", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"switch/spare-live", "connector/live-male", "protection/missing"},
	Bad: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8 }  # want terminal/uncovered
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`,
	Good:  shed("", "", ""),
	Check: checkUncovered,
})

func checkUncovered(c *Context) {
	for _, d := range c.Harness.Devices {
		if d.Covered {
			continue
		}
		var live []*harness.Terminal
		for _, t := range d.Terminals {
			if exposedMetal(t) && (len(t.Wires) > 0 || d.Is(kinds.Supply, "battery")) && c.alwaysLive(t.Index) {
				live = append(live, t)
			}
		}
		if len(live) > 0 {
			c.uncovered(d, live)
		}
	}
}

// exposedMetal reports whether a terminal stands out where a tool can touch it.
func exposedMetal(t *harness.Terminal) bool {
	d := t.Device
	switch {
	case d.Is(kinds.Supply, "battery"), d.Is(kinds.Join, "stud", "bus"), d.Is(kinds.Ground, "stud", "bus"):
		return true
	case d.Is(kinds.Protection, "panel"):
		return t.Name == "feed"
	}
	return t.Fitting.Form == kinds.Stud
}

func (c *Context) uncovered(d *harness.Device, live []*harness.Terminal) {
	var names []string
	for _, t := range live {
		names = append(names, t.FullName())
	}
	verb := "is"
	if len(live) > 1 {
		verb = "are"
	}
	count, none := float64(len(live)), 0.0
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name, Source: "33 CFR 183.445 (b)",
		Message:  fmt.Sprintf("%s %s live with every switch open, and nothing covers the metal", enumerate(names), verb),
		Measured: &count, Limit: &none, Unit: "terminals",
		Fix: &finding.Fix{Title: "put a boot, cap or lid on `" + d.Name + "` and say `covered`", Edits: []finding.Edit{saying(d.Origin, "covered")}},
	})
}
