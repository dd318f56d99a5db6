package rules

import (
	"fmt"

	"hame/check/network"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "graph/no-return",
	Severity: finding.Error,
	Summary:  "a load or coil with no path to the negative of a source",
	Why:      "Current comes back or does not flow. A load without a return does nothing, or finds one through another load, a bearing or a brake line.",
	Needs:    "The wires, joins and bonds. A ground stud that hangs on a hinge, a ball or rubber is no bond: ground/unbonded says so, and names the loads that return to it.",
	Since:    "0.1.0", Related: []string{"graph/no-feed", "ground/unbonded"},
	Bad: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }  # want graph/no-return
wire w4 f1.out -> lamp2.pos 2.5 mm2 red 1 m
`, ""),
	Good: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Check: checkNoReturn,
})

func checkNoReturn(c *Context) {
	if c.Harness.Hazy {
		return
	}
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if e.Load.Hidden() || !c.Network.Feed(e.A) || c.returns(e.B) || c.hangs(e.B) {
			continue
		}
		c.Report(finding.Finding{
			At: e.Device.Origin.Place(), Subject: e.Device.Name,
			Message: fmt.Sprintf("`%s` is fed but has no way back to the negative of a source", e.Name),
			Figures: []string{"nothing but loads leads from `" + c.terminalAt(e.B) + "` to the return side"},
		})
	}
}

// returns reports whether a node leads, through anything but loads, to a
// source's pole on the return side.
func (c *Context) returns(node int) bool { return c.Returns(node) }

// coldPole: a source's pole on the return side is here.
func (c *Context) coldPole(node int) bool {
	for _, i := range c.Network.At[node] {
		if c.Network.Elements[i].Kind == network.Source && c.Network.Hot(i) != node {
			return true
		}
	}
	return false
}

func (c *Context) terminalAt(node int) string {
	for _, d := range c.Harness.Devices {
		for _, t := range d.Terminals {
			if t.Index == node {
				return t.FullName()
			}
		}
	}
	return "?"
}
