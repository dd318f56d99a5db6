package rules

import (
	"fmt"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "ground/unbonded",
	Severity: finding.Error,
	Summary:  "a ground point that hangs on a hinge, a ball or rubber",
	Why: "A hinge, a drawbar ball or a rubber mount is no conductor: grease, paint and rust let it carry a lamp today and " +
		"nothing tomorrow. The current then comes back through a bearing, a cable or another circuit's load.",
	Needs: "`via` on the ground stud. It is no bond at all; a stud that a wire ties to the battery's negative side besides is bonded by that wire, and holds. " +
		"With no `via` the stud is taken as bolted to its chassis. The loads that return to such a point are named here and not by graph/no-return.",
	Limits:  []Limit{{"", "no return over a hinge, a ball or rubber", "common practice", "a bonding strap across moving and rubber-mounted parts", "common practice"}},
	Since:   "0.1.0",
	Related: []string{"graph/no-return", "ground/sneak"},
	Bad:     hinged("", "; via hinge }  # want ground/unbonded"),
	Good:    hinged("wire w6 lid -> main.neg 2.5 mm2 black 1 m\n", "; via hinge }"),
	Check:   checkUnbonded,
})

// hinged is a lamp that returns to the lid of the box that it sits on.
func hinged(strap, via string) string {
	return shed("", `ground chassis frame
ground stud lid     { at shelf; to frame; size M6`+via+`
load led lamp2      { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> lid       2.5 mm2 black 1 m
`+strap+`wire w7 main.neg  -> frame     2.5 mm2 black 1 m
`, "")
}

func checkUnbonded(c *Context) {
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Ground, "stud") && d.Has("via") && !c.tied(d) {
			c.unbonded(d)
		}
	}
}

// tied reports whether wires lead from a ground point to a source's pole on the
// return side.
func (c *Context) tied(d *harness.Device) bool {
	return c.returns(d.Terminals[0].Index)
}

// hangs reports whether wires and joints lead from a node to a ground point
// that is no bond.
func (c *Context) hangs(node int) bool {
	reached := c.tiedTo(node)
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Ground, "stud") && d.Has("via") && reached.Has(d.Terminals[0].Index) {
			return true
		}
	}
	return false
}

func (c *Context) unbonded(d *harness.Device) {
	way := d.Word("via")
	args, _ := d.Args("to")
	on := "its chassis"
	if to := args.Word(""); to != "" {
		on = "`" + to + "`"
	}
	f := finding.Finding{
		At: d.Origin.Place(), Subject: d.Name, Source: "common practice: a bonding strap across moving and rubber-mounted parts",
		Message: fmt.Sprintf("`%s` hangs on %s by %s, and that is no bond", d.Name, on, loosely[way]),
		Figures: []string{"strap it across to " + on + ", or take its returns back by wire"},
	}
	hanging := c.tiedTo(d.Terminals[0].Index)
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		if e.Kind == network.Load && !e.Load.Hidden() && e.Device != nil && hanging.Has(e.B) {
			f.Related = append(f.Related, finding.Related{Place: e.Device.Origin.Place(), Message: "returns to it"})
		}
	}
	c.Report(f)
}

// loosely is a joint that is no bond, in words.
var loosely = map[string]string{"hinge": "a hinge", "ball": "a ball", "rubber": "rubber"}

// tiedTo lists the nodes that wires and joints tie to one.
func (c *Context) tiedTo(node int) *facts.Nodes {
	return c.Reach([]int{node}, func(i, _ int) bool {
		k := c.Network.Elements[i].Kind
		return k == network.Wire || k == network.Joint
	})
}
