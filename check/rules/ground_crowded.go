package rules

import (
	"fmt"
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "ground/crowded",
	Severity: finding.Warning,
	Summary:  "more rings on a stud than it holds (4 unless said)",
	Why: "Every ring in the stack is one more face to corrode and to settle. The nut loosens, and all the circuits on " +
		"the stud lose their return at once, or find another one.",
	Needs: "Nothing. Every wire end on a stud counts as a ring of its own. A ground stud is judged, and an insulated stud too; " +
		"`holds` is the maker's word, and with none it is the practice's number.",
	Limits: []Limit{
		{"land", "four rings", "common practice", "four rings on one stud", "seen"},
		{"cfr183", "four terminals", "ABYC E-11", "four terminals on one stud", "memory"},
		{"ac43", "four rings", "common practice", "four rings on one stud", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"ground/overloaded", "terminal/stud"},
	Bad:     crowded("ground stud g1      { at shelf; size M6 }  # want ground/crowded"),
	Good:    crowded("ground bus g1       { at shelf; ways 6; size M6; limit 50 A }"),
	Check:   checkCrowded,
})

// crowded is a battery with four small lamps that return to one point.
func crowded(point string) string {
	return shed("", point+`
load led lamp2      { at shelf; draws 9 W; least 9 V; meant always }
load led lamp3      { at shelf; draws 9 W; least 9 V; meant always }
load led lamp4      { at shelf; draws 9 W; least 9 V; meant always }
load led lamp5      { at shelf; draws 9 W; least 9 V; meant always }
wire w4  f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5  f1.out    -> lamp3.pos 2.5 mm2 red   1 m
wire w6  f1.out    -> lamp4.pos 2.5 mm2 red   1 m
wire w7  f1.out    -> lamp5.pos 2.5 mm2 red   1 m
wire w8  lamp2.neg -> g1        2.5 mm2 black 1 m
wire w9  lamp3.neg -> g1        2.5 mm2 black 1 m
wire w10 lamp4.neg -> g1        2.5 mm2 black 1 m
wire w11 lamp5.neg -> g1        2.5 mm2 black 1 m
wire w12 g1        -> main.neg  2.5 mm2 black 1 m
`, "")
}

func checkCrowded(c *Context) {
	for _, d := range c.Harness.Devices {
		if !d.Is(kinds.Ground, "stud") && !d.Is(kinds.Join, "stud") {
			continue
		}
		holds, from, ok := c.holds(d)
		if rings := ringsOn(d); ok && float64(len(rings)) > holds {
			c.crowded(d, rings, holds, from)
		}
	}
}

// holds is how many rings a stud holds, and who says so.
func (c *Context) holds(d *harness.Device) (most float64, from string, ok bool) {
	if args := d.Given("holds"); len(args) > 0 {
		most, ok = d.SI("holds")
		return most, "the stud's own `holds`", ok
	}
	l, ok := c.Practice.Limit("stud_rings", "")
	return l.Value, source(l.Source), ok
}

// ringsOn names the wires whose ends land on a stud, an end each.
func ringsOn(d *harness.Device) []string {
	var names []string
	for _, w := range d.Terminals[0].Wires {
		names = append(names, w.Name)
	}
	return names
}

func (c *Context) crowded(d *harness.Device, rings []string, holds float64, from string) {
	count := float64(len(rings))
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message: fmt.Sprintf("%d rings lie on `%s`, and it holds %s", len(rings), d.Name, number(holds)),
		Figures: []string{
			"they are of " + strings.Join(rings, ", "),
			"put a second stud beside it, or gather the small ones on a bus",
		},
		Measured: &count, Limit: &holds, Unit: "rings", Source: from,
	})
}
