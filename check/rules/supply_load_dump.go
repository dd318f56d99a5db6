package rules

import (
	"fmt"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "supply/load-dump",
	Severity: finding.Warning,
	Summary:  "a position takes the battery off a running alternator",
	Why: "An alternator whose battery is taken away sends a surge of 80 to 100 V into everything that is left on it (24 V: up to 200 V), " +
		"and may destroy its own rectifier.",
	Needs:  "The switches and the engine's state. Fuses count as whole.",
	Limits: []Limit{{"", "surge without a clamp 79 to 101 V (24 V: 151 to 202 V)", "ISO 16750-2", "load dump", "seen"}},
	Since:  "0.1.0", Related: []string{"supply/cutoff-bypassed"},
	Bad:   dumped("main.pos -> off.in", "off.out  -> a1.in", "  # want supply/load-dump"),
	Good:  dumped("main.pos -> a1.in", "main.pos -> off.in", ""),
	Watch: watchLoadDump,
	Check: checkLoadDump,
})

// dumped is a battery with an alternator, and a switch between them or beside.
func dumped(first, second, want string) string {
	return `harness dump { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main   { at shelf; capacity 70 Ah; resistance 16 mohm; post M8; covered }
supply alternator alt { at shelf; output 40 A; volts 14.2 V; studs M6; covered }` + want + `
protection fuse a1    { at shelf; rating 50 A; family maxi; covered }
protection fuse f1    { at shelf; rating 10 A; covered }
switch isolator off   { at shelf; rating 100 A; studs M8; covered }
load led lamp         { at shelf; draws 27 W; least 9 V; meant always }
wire w0 ` + first + ` 16 mm2 sgx red 0.15 m
wire w1 ` + second + ` 16 mm2 sgx red 0.02 m
wire w2 a1.out   -> alt.pos  16 mm2 sgx red   0.5 m
wire w3 off.out  -> f1.in    16 mm2 sgx red   0.01 m
wire w4 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w5 lamp.neg -> main.neg 2.5 mm2 black 1 m
wire w6 alt.neg  -> main.neg 16 mm2 sgx black 0.5 m
mode driving { key on; engine running; closed off }
`
}

func watchLoadDump(c *Context) func(*states.Point) {
	first := map[int]*states.Point{}
	c.kept = first
	var alternators []int
	for _, i := range c.Sources() {
		if e := &c.Network.Elements[i]; e.Source.Sort == "alternator" && c.holdsBattery(nil, i) {
			alternators = append(alternators, i)
		}
	}
	return func(p *states.Point) {
		if e := p.Position.Engine; e != "idle" && e != "running" {
			return
		}
		for _, i := range alternators {
			if first[i] == nil && !c.holdsBattery(p, i) {
				first[i] = p
			}
		}
	}
}

// holdsBattery reports whether closed ways tie both of an alternator's poles
// to those of a battery; with no position, with every contact closed. A harness without a battery has none to lose.
func (c *Context) holdsBattery(p *states.Point, alternator int) bool {
	a := &c.Network.Elements[alternator]
	passes := func(element, from int) bool { return c.Passes(p, element, from) }
	if b := c.firstBattery(); b != nil && c.Leads(a.A, b.A, passes) && c.Leads(a.B, b.B, passes) {
		return true // as it mostly is, and found without going through all that they feed
	}
	pos, neg := c.Reach([]int{a.A}, passes), c.Reach([]int{a.B}, passes)
	batteries := 0
	for _, i := range c.Sources() {
		e := &c.Network.Elements[i]
		if e.Source.Sort != "battery" {
			continue
		}
		batteries++
		if pos.Has(e.A) && neg.Has(e.B) {
			return true
		}
	}
	return batteries == 0 || stringHolds(c, pos, neg)
}

// firstBattery is the first battery's element, or nil.
func (c *Context) firstBattery() *network.Element {
	for _, i := range c.Sources() {
		if e := &c.Network.Elements[i]; e.Source.Sort == "battery" {
			return e
		}
	}
	return nil
}

// stringHolds: of batteries in series the top one's positive and the bottom
// one's negative count.
func stringHolds(c *Context, pos, neg *facts.Nodes) bool {
	var top, bottom bool
	for _, i := range c.Sources() {
		if e := &c.Network.Elements[i]; e.Source.Sort == "battery" {
			top, bottom = top || pos.Has(e.A), bottom || neg.Has(e.B)
		}
	}
	return top && bottom
}

func checkLoadDump(c *Context) {
	first := c.kept.(map[int]*states.Point)
	for _, i := range c.Sources() {
		e := &c.Network.Elements[i]
		if p := first[i]; p != nil {
			c.Report(finding.Finding{
				At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.positionName(p), Source: "ISO 16750-2 load dump",
				Message: fmt.Sprintf("the battery can be taken off `%s` while it runs", e.Name),
				Figures: []string{
					"position: " + where(p.Position.Figure()),
					"bring the alternator in on the battery's side of the switch",
				},
			})
		}
	}
}
