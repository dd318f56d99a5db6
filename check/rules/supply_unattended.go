package rules

import (
	"fmt"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "supply/unattended",
	Severity: finding.Warning,
	Summary:  "a load that can stay on with the key off and is not marked as meant to",
	Why:      "Someone forgets it over a weekend, and on Monday the machine does not start.",
	Needs:    "The wires and switches. `meant always` on a load says that it is so on purpose; one that declares `standby` is judged by supply/drain instead.",
	Since:    "0.1.0", Related: []string{"supply/drain", "supply/cutoff-bypassed"},
	Bad: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V }  # want supply/unattended
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Good: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Watch: watchUnattended,
	Check: checkUnattended,
})

func watchUnattended(c *Context) func(*states.Point) {
	first := map[int]*states.Point{}
	c.kept = first
	var loads []int
	for i, e := range c.Network.Elements {
		if e.Kind == network.Load && e.Device.Is(kinds.Load) && !e.Device.Has("meant") && !e.Device.Has("standby") {
			loads = append(loads, i)
		}
	}
	return func(p *states.Point) {
		if p.Position.Key != "off" || p.Position.Engine != "off" {
			return
		}
		for _, i := range loads {
			if first[i] == nil && c.On(p, i) {
				first[i] = p
			}
		}
	}
}

func checkUnattended(c *Context) {
	first := c.kept.(map[int]*states.Point)
	for i, e := range c.Network.Elements {
		if p := first[i]; p != nil {
			c.Report(finding.Finding{
				At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.positionName(p),
				Message: fmt.Sprintf("`%s` can stay on with the key off, and draws %s", e.Name, amps(p.Amps(i))),
				Figures: []string{
					"position: " + where(p.Position.Figure()),
					"feed it through the key, or say `meant always` if it is so on purpose",
				},
			})
		}
	}
}
