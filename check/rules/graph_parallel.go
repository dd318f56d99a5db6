package rules

import (
	"fmt"

	"hame/check/network"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "graph/parallel",
	Severity: finding.Warning,
	Summary:  "two fuses, two breakers, or contacts of one switch or coil join the same two points to share current",
	Why: "Two contacts never share alike: the one with the lower resistance carries most, fails first and leaves all to the other. " +
		"Two fuses side by side open at no current that anyone can name.",
	Needs: "The wires. Points that wires and joints alone tie count as one.",
	Since: "0.1.0", Related: []string{"protection/oversized"},
	Bad: shed("", `protection fuse f2 { at shelf; rating 10 A; covered }  # want graph/parallel
wire w4 main.pos -> f2.in    2.5 mm2 red 0.15 m
wire w5 f2.out   -> lamp.pos 2.5 mm2 red 1 m
`, ""),
	Good:  shed("", "", ""),
	Check: checkParallel,
})

func checkParallel(c *Context) {
	of := c.Network.Tied()
	type pair struct {
		a, b int
		sort string
	}
	first := map[pair]*network.Element{}
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		sort := c.sharing(e, of)
		a, b := of[e.A], of[e.B]
		if sort == "" || a == b {
			continue
		}
		key := pair{min(a, b), max(a, b), sort}
		if other := first[key]; other != nil {
			c.parallel(other, e)
			continue
		}
		first[key] = e
	}
}

// sharing names what an element may share current with: a device of its own
// sort, a contact worked by the same hand or coil. Coils side by side are one.
func (c *Context) sharing(e *network.Element, of []int) string {
	switch {
	case e.Kind == network.Fuse:
		return e.Fuse.Sort
	case e.Kind == network.Contact && e.Gate.By == network.Relay:
		if e.Gate.Coil < 0 {
			return ""
		}
		coil := &c.Network.Elements[e.Gate.Coil]
		a, b := of[coil.A], of[coil.B]
		return fmt.Sprintf("coil %d %d %t", min(a, b), max(a, b), e.Gate.Rest)
	case e.Kind == network.Contact && e.Gate.By == network.Hand:
		return fmt.Sprintf("%s %d", e.Device.Name, e.Gate.Throw)
	}
	return ""
}

func (c *Context) parallel(first, second *network.Element) {
	f := finding.Finding{Subject: second.Name, At: second.Device.Origin.Place()}
	if second.Fuse != nil {
		f.At = deviceAt(second.Fuse)
	}
	if second.Device == first.Device && first.Fuse == nil {
		f.Message = fmt.Sprintf("two contacts of `%s` lie side by side to share a current", second.Name)
	} else {
		f.Message = fmt.Sprintf("`%s` lies side by side with `%s`: they join the same two points", second.Name, first.Name)
		f.Related = []finding.Related{{Place: first.Device.Origin.Place(), Message: "the other one"}}
	}
	f.Figures = []string{"take one that carries the whole current"}
	c.Report(f)
}
