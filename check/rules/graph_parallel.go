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
		a, b int32
		sharing
	}
	first := make(map[pair]*network.Element, len(c.of(network.Fuse))+len(c.of(network.Contact)))
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		by := c.sharing(e, of)
		a, b := of[e.A], of[e.B]
		if by == (sharing{}) || a == b {
			continue
		}
		key := pair{int32(min(a, b)), int32(max(a, b)), by}
		if other := first[key]; other != nil {
			c.parallel(other, e)
			continue
		}
		first[key] = e
	}
}

// sharing is what an element may share current with; the zero one shares none.
type sharing struct {
	sort    string // of a device, or the name of a switch
	contact bool
	throw   int32
	coil    [2]int32 // the points that it lies between
	rest    bool
}

// sharing is a device of the element's own sort, a contact worked by the same hand
// or coil. Coils side by side are one.
func (c *Context) sharing(e *network.Element, of []int) sharing {
	switch {
	case e.Kind == network.Fuse:
		return sharing{sort: e.Fuse.Sort}
	case e.Kind == network.Contact && e.Gate.By == network.Relay:
		if e.Gate.Coil < 0 {
			return sharing{}
		}
		coil := &c.Network.Elements[e.Gate.Coil]
		a, b := of[coil.A], of[coil.B]
		return sharing{contact: true, coil: [2]int32{int32(min(a, b)), int32(max(a, b))}, rest: e.Gate.Rest}
	case e.Kind == network.Contact && e.Gate.By == network.Hand:
		return sharing{contact: true, sort: e.Device.Name, throw: int32(e.Gate.Throw)}
	}
	return sharing{}
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
