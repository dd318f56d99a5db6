package rules

import (
	"fmt"
	"math"

	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "load/overvolted",
	Severity: finding.Error,
	Summary:  "a load gets more than its greatest voltage in a mode",
	Why: "A filament lives half as long for each few percent of volts too many, and an electronic driver is gone at once. It comes of " +
		"a 12 V part in a 24 V machine, or of an alternator on a part made for the battery alone.",
	Needs:  "`most` of the load; where it has none, 4/3 of its system's volts. Judged in every declared mode; one with a dead short is left to its rule.",
	Limits: []Limit{{"", "the load's own `most`, else 4/3 of the system's volts", "the load's maker", "", "as declared"}},
	Since:  "0.1.0", Related: []string{"load/starved"},
	Bad:   shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; most 12.2 V; meant always }  # want load/overvolted`+lamp2Wires, ""),
	Good:  shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; most 16 V; meant always }`+lamp2Wires, ""),
	Check: checkOvervolted,
})

const lamp2Wires = `
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`

func checkOvervolted(c *Context) {
	said := map[*harness.Device]bool{}
	for _, i := range c.loadElements() {
		d := c.Network.Elements[i].Device
		most, limited := d.SI("most")
		worst, at := 0.0, -1
		for n, p := range c.Survey.Modes {
			e := &c.Network.Elements[i]
			if volts := math.Abs(p.Across(i)); !c.Shorted(p) && p.Alive(e.A) && p.Alive(e.B) && volts > worst {
				worst, at = volts, n
			}
		}
		const same = 1e-6
		if limited && at >= 0 && worst > most*(1+same) && !said[d] {
			said[d] = true
			c.overvolted(i, at, worst, most)
		}
	}
}

func (c *Context) overvolted(load, mode int, volts, most float64) {
	e, name := &c.Network.Elements[load], c.Harness.Modes[mode].Name
	c.Report(finding.Finding{
		At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: name,
		Message:  fmt.Sprintf("`%s` gets %s V in `%s`, and bears %s V: %s V too much", e.Name, number(volts), name, number(most), number(volts-most)),
		Figures:  c.voltsOf(c.Survey.Modes[mode], load, mode),
		Measured: &volts, Limit: &most, Unit: "V", Source: "the load's own `most`",
	})
}
