package rules

import (
	"fmt"
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "graph/unsettled",
	Severity: finding.Error,
	Summary:  "in some position a relay can neither stay in nor stay out",
	Why: "A relay that cuts its own coil off, or drags its own feed down, lets go, pulls in again and so on: it buzzes, its " +
		"contacts burn, and what hangs on it is neither on nor off.",
	Needs: "`coil` of the relay; `pulls` and `releases` are taken as 0.65 and 0.1 of the system's volts where not declared.",
	Since: "0.1.0", Related: []string{"graph/dead-short", "switch/coil-volts"},
	Bad:   buzzer("k1.87a", "form change; ", "  # want graph/unsettled"),
	Good:  buzzer("f1.out", "", ""),
	Watch: watchUnsettled,
	Check: checkUnsettled,
})

// buzzer is a relay whose coil is fed from a point.
func buzzer(coilFrom, form, want string) string {
	return shed("", `switch toggle s1 { at shelf; rating 10 A; tabs 6.3 }
switch relay k1  { at shelf; contacts 30 A; coil 90 ohm; `+form+`suppress resistor; tabs 6.3 }`+want+`
load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> k1.30     2.5 mm2 red   0.5 m
wire w5 `+coilFrom+` -> s1.in     2.5 mm2 red   0.5 m
wire w6 s1.out    -> k1.86     2.5 mm2 red   0.5 m
wire w7 k1.85     -> main.neg  2.5 mm2 black 0.5 m
wire w8 k1.87     -> lamp2.pos 2.5 mm2 red   0.5 m
wire w9 lamp2.neg -> main.neg  2.5 mm2 black 0.5 m
`, "")
}

func watchUnsettled(c *Context) func(*states.Point) {
	found := &[]*states.Point{}
	c.kept = found
	return func(p *states.Point) {
		if len(p.Unsettled) > 0 && !slices.ContainsFunc(*found, func(o *states.Point) bool { return o.Unsettled[0] == p.Unsettled[0] }) {
			*found = append(*found, p)
		}
	}
}

func checkUnsettled(c *Context) {
	said := map[int]bool{}
	for _, p := range *c.kept.(*[]*states.Point) {
		if !slices.ContainsFunc(p.Unsettled, func(coil int) bool { return said[coil] }) {
			c.unsettled(p)
		}
		for _, coil := range p.Unsettled {
			said[coil] = true
		}
	}
}

func (c *Context) unsettled(p *states.Point) {
	coil := slices.Min(p.Unsettled)
	e := &c.Network.Elements[coil]
	f := finding.Finding{
		At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.positionName(p),
		Figures: []string{c.chasing(p, coil), "the loop: " + c.loop(p, coil)},
	}
	var names []string
	for _, i := range p.Unsettled {
		o := &c.Network.Elements[i]
		names = append(names, o.Device.Name)
		if i != coil {
			f.Related = append(f.Related, finding.Related{Place: o.Device.Origin.Place(), Message: "goes round with it"})
		}
	}
	slices.Sort(names)
	f.Message = fmt.Sprintf("%s can neither stay in nor stay out: each state undoes itself", enumerate(names))
	c.Report(f)
}

// chasing says what the coil gets as it stands, and why it can't stay so.
func (c *Context) chasing(p *states.Point, coil int) string {
	e := &c.Network.Elements[coil]
	volts := math.Abs(p.Across(coil))
	if p.In[coil] {
		return fmt.Sprintf("in, the coil of `%s` gets %s V, and it lets go at %s V (at 20 degC)", e.Name, number(volts), number(e.Load.Coil.ReleasesV))
	}
	return fmt.Sprintf("out, the coil of `%s` gets %s V, and it pulls in at %s V (at 20 degC)", e.Name, number(volts), number(e.Load.Coil.PullsV))
}

// loop is the way from a contact of the relays that go round to the coil.
func (c *Context) loop(p *states.Point, coil int) string {
	e := &c.Network.Elements[coil]
	ours := func(i int) bool {
		o := &c.Network.Elements[i]
		return o.Kind == network.Contact && o.Gate.By == network.Relay && slices.Contains(p.Unsettled, o.Gate.Coil)
	}
	for _, pole := range []int{e.A, e.B} {
		route, ok := c.Route(pole, func(node int) bool {
			return slices.ContainsFunc(c.Network.At[node], ours)
		}, func(i, from int) bool {
			o := &c.Network.Elements[i]
			at := o.A + o.B - from // towards the coil, so diodes are passed from behind
			return !c.Network.Return(from) && c.Passes(p, i, at)
		})
		if ok && !c.Network.Return(pole) {
			return c.closeLoop(pole, route, ours)
		}
	}
	return "what its contact turns on drags down what the coil is fed from"
}

// closeLoop writes a loop from the contact on.
func (c *Context) closeLoop(pole int, route []int, ours func(int) bool) string {
	node := pole
	for _, i := range route {
		o := &c.Network.Elements[i]
		node = o.A + o.B - node
	}
	slices.Reverse(route)
	for _, i := range c.Network.At[node] {
		if ours(i) {
			o := &c.Network.Elements[i]
			return c.routeWords(o.A+o.B-node, append([]int{i}, route...))
		}
	}
	return c.routeWords(node, route)
}
