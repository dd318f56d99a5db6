package rules

import (
	"fmt"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "graph/return-switched",
	Severity: finding.Warning,
	Summary:  "a fuse or breaker in a return, or a switch in one that is not the master of a battery's whole negative",
	Why: "With the return open the load is off and everything up to it is still live. Other circuits find their way back through it, " +
		"and a wire that chafes to the frame closes the circuit again.",
	Needs: "The wires. A `master` isolator through which all of a battery's negative current goes is right in the return; a switch that " +
		"carries coil current alone is advice.",
	Limits: []Limit{{"", "a grounded conductor is switched only together with all others", "46 CFR 120.380", "(b)", "seen"}},
	Since:  "0.1.0", Related: []string{"ground/sneak", "graph/no-return"},
	Bad: shed("", `switch toggle s1 { at shelf; rating 20 A; for led; tabs 6.3 }  # want graph/return-switched
load led lamp2   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> s1.in     2.5 mm2 black 1 m
wire w6 s1.out    -> main.neg  2.5 mm2 black 1 m
`, ""),
	Good: shed("", `switch toggle s1 { at shelf; rating 20 A; for led; tabs 6.3 }
load led lamp2   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> s1.in     2.5 mm2 red   1 m
wire w5 s1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w6 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Check: checkReturnSwitched,
})

func checkReturnSwitched(c *Context) {
	said := map[string]bool{}
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		opens := e.Kind == network.Fuse || e.Kind == network.Contact && e.Gate.By != network.Tap
		if !opens || said[e.Name] || !c.inReturn(e) || c.mastersBattery(e) {
			continue
		}
		loads := c.returningBy(e)
		if len(loads) == 0 {
			continue
		}
		said[e.Name] = true
		c.returnSwitched(e, loads)
	}
}

// inReturn: no source feeds either end, and what lies behind comes back here.
func (c *Context) inReturn(e *network.Element) bool {
	for _, n := range []int{e.A, e.B} {
		if c.Network.Feed(n) && !c.Network.Return(n) {
			return false
		}
	}
	return c.returns(e.A) || c.returns(e.B)
}

// returningBy lists the loads that come back through an element alone: those
// on the side that leads to no source's pole without it.
func (c *Context) returningBy(e *network.Element) []int {
	var loads []int
	for _, end := range []int{e.A, e.B} {
		reached := map[int]bool{}
		home := c.Network.Leads(end, func(node int) bool {
			reached[node] = true
			return c.coldPole(node)
		}, func(x *network.Element) bool { return x == e })
		if home {
			continue
		}
		for i := range c.Network.Elements {
			l := &c.Network.Elements[i]
			if l.Kind == network.Load && !l.Load.Hidden() && (reached[l.A] || reached[l.B]) {
				loads = append(loads, i)
			}
		}
	}
	return loads
}

// mastersBattery: a master isolator without which a battery's pole on the
// return side leads to nothing.
func (c *Context) mastersBattery(e *network.Element) bool {
	if e.Kind != network.Contact || !e.Device.Is(kinds.Switch, "isolator") || !e.Device.Has("master") {
		return false
	}
	for i := range c.Network.Elements {
		b := &c.Network.Elements[i]
		if b.Kind != network.Source || b.Source.Sort != "battery" {
			continue
		}
		cold := b.A + b.B - c.Network.Hot(i)
		if !c.Network.Leads(cold, c.usedBut(i), func(x *network.Element) bool { return x.Device == e.Device && x.Kind == network.Contact }) {
			return true
		}
	}
	return false
}

// usedBut: a load or another source touches the node.
func (c *Context) usedBut(source int) func(int) bool {
	return func(node int) bool {
		for _, i := range c.Network.At[node] {
			e := &c.Network.Elements[i]
			if i != source && (e.Kind == network.Source || e.Kind == network.Load && !e.Load.Hidden()) {
				return true
			}
		}
		return false
	}
}

func (c *Context) returnSwitched(e *network.Element, loads []int) {
	f := finding.Finding{Subject: e.Name, At: e.Device.Origin.Place(), Source: "46 CFR 120.380 (b)"}
	if e.Fuse != nil {
		f.At = deviceAt(e.Fuse)
	}
	var names []string
	coils := true
	for _, i := range loads {
		names = append(names, c.Network.Elements[i].Name)
		coils = coils && c.Network.Elements[i].Load.Coil != nil
	}
	f.Message = fmt.Sprintf("`%s` opens the return of %s, not the feed", e.Name, enumerate(names))
	if coils && e.Kind == network.Contact {
		f.Severity = finding.Advice
		f.Message += " (coil current alone)"
	}
	f.Figures = []string{"put it into the feed: with the return open, all up to the load stays live"}
	c.Report(f)
}
