package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "switch/spare-live",
	Severity: finding.Warning,
	Summary:  "an unused contact's terminal, such as 87a, that is live and uncovered",
	Why: "The break contact of a relay that is used for its make contact is live all the time that the relay is out. Its bare tab stands " +
		"among others, and a dropped washer or a loose wire makes a short of it.",
	Needs: "The wires. A terminal is live where any position of the switches can feed it; one is covered where the device says `covered`. " +
		"Unused terminals of a key are not judged: most keys leave some.",
	Limits: []Limit{
		{"", "no live bare terminal", "33 CFR 183.445", "(b)", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"terminal/uncovered", "graph/loose-end"},
	Bad: shed("", `switch relay k1   { at shelf; contacts 20 A; coil 96 ohm; suppress diode; form change }  # want switch/spare-live
load led marker   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out     -> k1.30      2.5 mm2 red   1 m
wire w5 f1.out     -> k1.86      2.5 mm2 red   1 m
wire w6 k1.85      -> main.neg   2.5 mm2 black 1 m
wire w7 k1.87      -> marker.pos 2.5 mm2 red   1 m
wire w8 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Good: shed("", `switch relay k1   { at shelf; contacts 20 A; coil 96 ohm; suppress diode; form make }
load led marker   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out     -> k1.30      2.5 mm2 red   1 m
wire w5 f1.out     -> k1.86      2.5 mm2 red   1 m
wire w6 k1.85      -> main.neg   2.5 mm2 black 1 m
wire w7 k1.87      -> marker.pos 2.5 mm2 red   1 m
wire w8 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Check: checkSpareLive,
})

func checkSpareLive(c *Context) {
	if c.Harness.Hazy {
		return // a wire that could not be read may land there
	}
	for _, d := range c.Harness.Devices {
		if !d.Is(kinds.Switch) || d.Is(kinds.Switch, "key") || d.Covered {
			continue
		}
		var live []*harness.Terminal
		for _, t := range d.Terminals {
			if t.Spare && len(t.Wires) == 0 && c.fedWithout(t.Index, nil) {
				live = append(live, t)
			}
		}
		if len(live) > 0 {
			c.spareLive(d, live)
		}
	}
}

func (c *Context) spareLive(d *harness.Device, live []*harness.Terminal) {
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
		Message:  fmt.Sprintf("%s %s unused, live and bare", enumerate(names), verb),
		Figures:  []string{"cap it or cut it off and say `covered`, or take a switch without that contact"},
		Measured: &count, Limit: &none, Unit: "terminals", Fix: c.makeOnly(d, live),
	})
}

// makeOnly turns a change-over relay whose 87a alone is to spare into one with
// a make contact, where its own declaration says so.
func (c *Context) makeOnly(d *harness.Device, live []*harness.Terminal) *finding.Fix {
	args, ok := d.Args("form")
	if !ok || len(live) != 1 || live[0].Name != "87a" {
		return nil
	}
	at, own := saidHere(d.Origin, args)
	if !own {
		return nil
	}
	return &finding.Fix{
		Title: "take a relay with a make contact alone for `" + d.Name + "`",
		Edits: []finding.Edit{{Place: at, Text: "make"}},
	}
}
