package rules

import (
	"fmt"
	"math"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "connector/overloaded",
	Severity: finding.Error,
	Summary:  "a contact's current, or what goes through a splice, stud or bus, above its limit",
	Why: "A contact that carries too much heats its own spring until it grips no more, and then it heats the faster. The housing " +
		"melts round it.",
	Needs: "`limit` of a connector: the greatest current of one contact. A splice, stud or bus without a `limit` is not judged: its maker says. " +
		"The current is the worst of every position that the operator can make; through a splice, stud or bus goes half of all that its wires bring and take. Returns are judged by ground/overloaded.",
	Limits: []Limit{
		{"", "the declared limit", "the part's maker", "", "as declared"},
	},
	Since:   "0.1.0",
	Related: []string{"connector/gauge", "ground/overloaded", "wire/undersized"},
	Bad:     pluggedPad("5 A", "  # want connector/overloaded"),
	Good:    pluggedPad("10 A", ""),
	Watch:   watchJoins,
	Check:   checkConnectorOverloaded,
})

// pluggedPad is a heating pad on a plug.
func pluggedPad(limit, want string) string {
	return shed("", `join connector x1 { at shelf; ways 2; limit `+limit+` }`+want+`
protection fuse f2 { at shelf; rating 10 A; covered }
load heater pad   { at shelf; draws 6 A at 12 V; least 9 V; meant always }
wire w4 main.pos    -> f2.in       2.5 mm2 red   0.15 m
wire w5 f2.out      -> x1.female.1 2.5 mm2 red   1 m
wire w6 x1.male.1   -> pad.pos     2.5 mm2 red   1 m
wire w7 pad.neg     -> x1.male.2   2.5 mm2 black 1 m
wire w8 x1.female.2 -> main.neg    2.5 mm2 black 1 m
`, "")
}

// watchJoins watches the splices, studs and buses of a declared limit.
func watchJoins(c *Context) func(*states.Point) {
	return c.watchThrough(func(d *harness.Device) bool { return d.Is(kinds.Join, "splice", "stud", "bus") })
}

// watchThrough keeps the greatest current through each of some devices of one
// terminal and a declared limit.
func (c *Context) watchThrough(watched func(*harness.Device) bool) func(*states.Point) {
	most := map[int]steadiest{}
	c.kept = most
	var nodes []int
	for _, d := range c.Harness.Devices {
		if _, ok := d.SI("limit"); ok && watched(d) {
			nodes = append(nodes, d.Terminals[0].Index)
		}
	}
	return func(p *states.Point) {
		for _, n := range nodes {
			if a := c.throughNode(p, n); a > most[n].amps {
				most[n] = steadiest{a, &p.Position}
			}
		}
	}
}

// throughNode is half of all that comes to a node and leaves it.
func (c *Context) throughNode(p *states.Point, node int) float64 {
	sum := 0.0
	for _, i := range c.Network.At[node] {
		sum += math.Abs(p.Amps(i))
	}
	return sum / 2
}

func checkConnectorOverloaded(c *Context) {
	for _, d := range c.Harness.Devices {
		switch {
		case d.Is(kinds.Join, "connector"):
			c.worstContact(d)
		case d.Is(kinds.Join):
			if limit, ok := d.SI("limit"); ok {
				s := c.throughAtWorst(d.Terminals[0].Index)
				c.aboveLimit(d, d.Name, limit, s)
			}
		}
	}
}

// throughAtWorst is what was seen, or where the positions were too many to
// solve each no more than the wires' own bounds let through.
func (c *Context) throughAtWorst(node int) steadiest {
	s := c.kept.(map[int]steadiest)[node]
	sum, bound := 0.0, false
	for _, i := range c.Network.At[node] {
		sum += c.Survey.Worst[i].Amps
		bound = bound || c.Survey.Worst[i].Bound
	}
	if bound && sum/2 > s.amps {
		s.amps = sum / 2
	}
	return s
}

// worstContact judges a connector by the contact that carries the most.
func (c *Context) worstContact(d *harness.Device) {
	worst, name := steadiest{}, ""
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		if e.Kind == network.Joint && e.Device == d && c.Survey.Worst[i].Amps > worst.amps {
			worst, name = steadiest{c.Survey.Worst[i].Amps, c.Survey.Worst[i].At}, e.Terminal.FullName()
		}
	}
	const nothing = 1e-3
	limit, ok := d.SI("limit")
	switch {
	case worst.amps < nothing:
	case !ok:
		c.Wait(d.Name, finding.Need{Name: d.Name, Setting: "limit"}, d.Origin.Place())
	default:
		c.aboveLimit(d, name, limit, worst)
	}
}

func (c *Context) aboveLimit(d *harness.Device, name string, limit float64, s steadiest) {
	if s.amps <= limit*(1+1e-9) {
		return
	}
	f := finding.Finding{
		At: d.Origin.Place(), Subject: d.Name, Source: "the part's own `limit`",
		Message:  fmt.Sprintf("`%s` carries %s at worst, and its limit is %s", name, amps(s.amps), amps(limit)),
		Measured: &s.amps, Limit: &limit, Unit: "A",
	}
	if s.at != nil {
		f.Figures = append(f.Figures, "worst position: "+where(s.at.Figure()))
	}
	f.Figures = append(f.Figures, "share the current out over more contacts, or take a part of a higher limit")
	c.Report(f)
}
