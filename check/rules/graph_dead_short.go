package rules

import (
	"fmt"
	"slices"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "graph/dead-short",
	Severity: finding.Error,
	Summary:  "in some position nothing but wires, contacts and protection lies between a source's poles, or two sources work against each other",
	Why: "A battery drives hundreds of amperes through such a way. At best a fuse blows each time the switch is thrown; at " +
		"worst there is none and the wire burns.",
	Needs: "The wires, and the volts of each source. A battery and its alternator side by side agree, and so do batteries in series; " +
		"two sources are against each other where their volts as tied lie more than a quarter apart (trade judgement; an " +
		"alternator counts as a source of its system's volts).",
	Limits: []Limit{{"", "no such way", "common practice", "", "common practice, no source"}, {"", "sources tied together agree within 25 %", "common practice", "", "trade judgement"}},
	Since:  "0.1.0", Related: []string{"protection/missing", "graph/unsettled"},
	Bad: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }  # want graph/dead-short
protection fuse f1  { at shelf; rating 30 A; family post; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
switch toggle s1    { at shelf; rating 300 A; tabs 6.3 }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 4 mm2 red   1 m
wire w3 lamp.neg -> main.neg 4 mm2 black 1 m
wire w4 f1.out   -> s1.in    4 mm2 red   1 m
wire w5 s1.out   -> main.neg 4 mm2 black 1 m
mode lit { for 1 h }
`,
	Good: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 30 A; family post; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
switch toggle s1    { at shelf; rating 300 A; tabs 6.3 }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w4 f1.out   -> s1.in    4 mm2 red   1 m
wire w5 s1.out   -> lamp.pos 4 mm2 red   1 m
wire w3 lamp.neg -> main.neg 4 mm2 black 1 m
mode lit { closed s1; for 1 h }
`,
	Shorts: true,
	Watch:  watchDeadShort,
	Check:  checkDeadShort,
})

// shortAt is the first position with a short of one source.
type shortAt struct {
	facts.DeadWay
	at *states.Point
}

func watchDeadShort(c *Context) func(*states.Point) {
	found := &[]shortAt{}
	c.kept = found
	if _, possible := c.DeadWays(nil); !possible {
		return func(*states.Point) {}
	}
	return func(p *states.Point) {
		c.shortsIn(p, found)
	}
}

// shortsIn takes in a position's short, once for each source.
func (c *Context) shortsIn(p *states.Point, found *[]shortAt) {
	s, ok := c.ShortIn(p)
	if ok && !slices.ContainsFunc(*found, func(o shortAt) bool { return o.Source == s.Source }) {
		*found = append(*found, shortAt{s, p})
	}
}

func checkDeadShort(c *Context) {
	found := c.kept.(*[]shortAt)
	if s, possible := c.DeadWays(nil); possible && len(*found) == 0 && c.Survey.Method != "all" {
		c.tryShort(s, found)
	}
	for _, s := range *found {
		c.deadShort(s)
	}
}

// tryShort solves the positions that a way asks for, where not all positions
// were solved.
func (c *Context) tryShort(s facts.DeadWay, found *[]shortAt) {
	for _, all := range []bool{false, true} {
		for _, key := range tryKeys {
			p := states.Position{Key: key, Engine: "off", Corner: states.HotLow, Charge: 1, Throws: c.throwsOf(s.Route, all)}
			c.shortsIn(c.Again(&p), found)
		}
	}
}

// throwsOf sets the switches on a way as it asks for, and all others open or at
// their first throw.
func (c *Context) throwsOf(route []int, others bool) map[*harness.Device]int {
	throws := map[*harness.Device]int{}
	if others {
		for _, i := range c.of(network.Contact) {
			if e := &c.Network.Elements[i]; e.Gate.By == network.Hand {
				throws[e.Device] = 1
			}
		}
	}
	for _, i := range route {
		if e := &c.Network.Elements[i]; e.Kind == network.Contact && e.Gate.By == network.Hand {
			throws[e.Device] = e.Gate.Throw
		}
	}
	return throws
}

func (c *Context) deadShort(s shortAt) {
	e := &c.Network.Elements[s.Source]
	f := finding.Finding{
		At: e.Device.Origin.Place(), Subject: e.Device.Name,
		Figures: []string{"the way: " + c.routeWords(s.From, s.Route)},
		Related: c.along(s.Route, "on the way"),
	}
	when := ""
	if slices.ContainsFunc(s.Route, func(i int) bool { return c.Network.Elements[i].Kind == network.Contact }) {
		f.Mode = c.positionName(s.at)
		when = " in some position"
	}
	if s.Against < 0 {
		f.Message = fmt.Sprintf("`%s` is shorted%s: nothing but wires, contacts and protection lies between its poles", e.Name, when)
		c.Report(f)
		return
	}
	other := &c.Network.Elements[s.Against]
	f.Message = fmt.Sprintf("`%s` and `%s` are tied%s so that %s V stand across wires, contacts and protection alone", e.Name, other.Name, when, number(s.LeftV))
	f.Related = append([]finding.Related{{Place: other.Device.Origin.Place(), Message: "the other source"}}, f.Related...)
	c.Report(f)
}
