package rules

import (
	"fmt"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "graph/reversed",
	Severity: finding.Error,
	Summary:  "what bears no reversal is fed backwards in some position: a load with strict polarity, an outlet, a coil with a diode across it",
	Why: "A driver or module dies at once, whatever is plugged into an outlet dies later, and a coil's suppression diode " +
		"conducts and shorts the feed. Two ends swapped in a crimping jig are enough.",
	Needs: "`polarity strict` on the load, or `suppress diode` on the coil (its cathode is at 86, of a solenoid at pos). A load that says " +
		"nothing of its polarity is not judged. Below half a volt nothing counts as fed.",
	Limits: []Limit{{"", "not more than 0.5 V backwards", "common practice", "less than a silicon junction conducts at", "trade judgement"}},
	Since:  "0.1.0", Related: []string{"graph/back-feed", "switch/no-suppression"},
	Bad:   strictShed("lamp2.neg", "lamp2.pos", "  # want graph/reversed"),
	Good:  strictShed("lamp2.pos", "lamp2.neg", ""),
	Watch: watchReversed,
	Check: checkReversed,
})

// strictShed is a harness with a second lamp that bears no reversal.
func strictShed(fed, returned, want string) string {
	return shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; polarity strict; meant always }`+want+`
wire w4 f1.out -> `+fed+` 2.5 mm2 red 1 m
wire w5 `+returned+` -> main.neg 2.5 mm2 black 1 m
`, "")
}

// reversal is where an element is fed backwards the hardest.
type reversal struct {
	at       *states.Point
	backV    float64
	forwards bool // in some position it's fed the right way round
}

func watchReversed(c *Context) func(*states.Point) {
	found := map[int]*reversal{}
	c.kept = found
	var strict []int
	for i := range c.Network.Elements {
		if polarised(&c.Network.Elements[i]) {
			strict, found[i] = append(strict, i), &reversal{}
		}
	}
	return func(p *states.Point) {
		const nothingA, backV = 1e-4, 0.5
		for _, i := range strict {
			r := found[i]
			switch volts, amps := p.Across(i), p.Amps(i); {
			case volts > backV && amps > nothingA:
				r.forwards = true
			case volts < -backV && amps < -nothingA && -volts > r.backV:
				r.at, r.backV = p, -volts
			}
		}
	}
}

// polarised: the element must not be fed backwards.
func polarised(e *network.Element) bool {
	if e.Kind != network.Load || e.Load.Hidden() || e.Device == nil {
		return false
	}
	d := e.Device
	switch {
	case e.Load.Coil != nil, d.Is(kinds.Load, "solenoid"):
		return d.Word("suppress") == "diode" || d.Word("polarity") == "strict"
	case d.Is(kinds.Load, "outlet"):
		return true
	}
	return d.Is(kinds.Load) && d.Word("polarity") == "strict"
}

func checkReversed(c *Context) {
	found := c.kept.(map[int]*reversal)
	said := map[*harness.Device]bool{}
	for i := range c.Network.Elements {
		d := c.Network.Elements[i].Device
		if r := found[i]; r != nil && r.at != nil && !said[d] {
			said[d] = true
			c.reversed(i, r)
		}
	}
}

func (c *Context) reversed(i int, r *reversal) {
	e := &c.Network.Elements[i]
	what := "bears no reversal"
	switch {
	case e.Device.Is(kinds.Load, "outlet"):
		what = "an outlet's poles are fixed"
	case e.Device.Word("suppress") == "diode":
		what = "the diode across its coil conducts then"
	}
	f := finding.Finding{
		At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.positionName(r.at),
		Message:  fmt.Sprintf("`%s` is fed backwards with %s V, and %s", e.Name, number(r.backV), what),
		Measured: &r.backV, Limit: finding.Amount(0.5), Unit: "V", Source: "common practice",
	}
	if from, route, ok := c.feedPath(r.at, i); ok {
		f.Figures = []string{"the way: " + c.routeWords(from, route)}
	}
	if !r.forwards {
		f.Fix = c.swapped(e)
	}
	c.Report(f)
}

// swapped exchanges the two ends that land on an element, where each terminal
// has one wire.
func (c *Context) swapped(e *network.Element) *finding.Fix {
	pos, neg := e.Terminal, (*harness.Terminal)(nil)
	for _, t := range e.Device.Terminals {
		if t.Index == e.B {
			neg = t
		}
	}
	if pos == nil || neg == nil || len(pos.Wires) != 1 || len(neg.Wires) != 1 || len(e.Device.Terminals) > 2 && e.Load.Coil == nil {
		return nil
	}
	fix := &finding.Fix{Title: "swap the ends at `" + e.Device.Name + "`"}
	for _, pair := range [][2]*harness.Terminal{{pos, neg}, {neg, pos}} {
		w := pair[0].Wires[0]
		for _, end := range w.Ends {
			if end.Terminal == pair[0] {
				fix.Edits = append(fix.Edits, finding.Edit{Place: finding.Place{File: w.Origin.File, Span: end.Span}, Text: pair[1].FullName()})
			}
		}
	}
	return fix
}
