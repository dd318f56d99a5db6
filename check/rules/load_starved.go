package rules

import (
	"fmt"
	"math"
	"slices"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "load/starved",
	Severity: finding.Error,
	Summary:  "a load gets less than its least voltage in a mode that runs it, or its feed cannot hold it up",
	Why: "A radio drops out, a driver goes dark, a solenoid does not pull. With constant power it is worse: the less it " +
		"gets, the more current it draws, until the feed gives way altogether.",
	Needs: "`least` of the load; one that has none is held to this alone, that its feed can hold it up. Gauge and length of the wires on " +
		"the way. Judged in every declared mode whose closed contacts lead to the load, cranking too; a mode with a dead short or a relay " +
		"that never settles is left to their rules, and a coil to switch/coil-volts.",
	Limits: []Limit{{"", "the load's own `least`", "the load's maker", "", "as declared"}},
	Since:  "0.1.0", Related: []string{"load/overvolted", "wire/drop"},
	Bad:   cranked("  # want load/starved", "closed s2"),
	Good:  cranked("", ""),
	Check: checkStarved,
})

// cranked is a harness with a radio that a mode leaves on while the engine
// cranks, or not.
func cranked(want, closed string) string {
	settings := ""
	if closed != "" {
		settings = "; " + closed
	}
	return `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
switch toggle s2    { at shelf; rating 10 A; tabs 6.3 }
load module radio   { at shelf; draws 20 W; least 9 V; critical; meant always }` + want + `
load starter crank  { at shelf; draws 120 A; least 6 V }
wire w1 main.pos  -> f1.in     2.5 mm2 red   0.15 m
wire w4 f1.out    -> s2.in     2.5 mm2 red   0.5 m
wire w5 s2.out    -> radio.pos 2.5 mm2 red   0.5 m
wire w6 radio.neg -> main.neg  2.5 mm2 black 0.5 m
wire w7 main.pos  -> crank.pos 35 mm2 sgx red 0.5 m
wire w8 crank.neg -> main.neg  35 mm2 sgx black 0.5 m
mode start { key start; engine cranking; for 5 s` + settings + ` }
mode talk  { key acc; closed s2; for 1 h }
`
}

// hungry is a load that does not get what it needs.
type hungry struct {
	load  int
	mode  int
	volts float64
	least float64 // 0 where none is declared
}

func (h hungry) short() float64 { return h.least - h.volts }

func checkStarved(c *Context) {
	worst := map[*harness.Device]hungry{}
	for n, p := range c.Survey.Modes {
		if c.Shorted(p) || len(p.Unsettled) > 0 {
			continue
		}
		fed := c.FedIn(p)
		if p.Failed != nil {
			c.collapsed(n, fed)
			continue
		}
		for _, i := range c.loadElements() {
			h, ok := c.hungryIn(n, i, fed)
			d := c.Network.Elements[i].Device
			if old, found := worst[d]; ok && (!found || h.short() > old.short()) {
				worst[d] = h
			}
		}
	}
	for _, i := range c.loadElements() {
		if h, ok := worst[c.Network.Elements[i].Device]; ok && h.load == i {
			c.starved(h)
		}
	}
}

// hungryIn judges a load in a mode.
func (c *Context) hungryIn(n, load int, fed facts.Fed) (hungry, bool) {
	e, p := &c.Network.Elements[load], c.Survey.Modes[n]
	if !fed.Runs(load) || e.Load.When == network.Cranking && p.Position.Engine != "cranking" {
		return hungry{}, false
	}
	least, declared := e.Device.SI("least")
	sags := slices.Contains(p.Sagging, load)
	switch {
	case !e.Load.Known:
		c.Wait(e.Name, finding.Need{Name: e.Device.Name, Setting: "draws"}, e.Device.Origin.Place())
		return hungry{}, false
	case !declared && !sags:
		return hungry{}, false
	}
	if way, ok := c.Path(load, p); ok && !c.stepsKnown(load, way.Feed, way.Back) {
		return hungry{}, false
	}
	const same = 1e-6
	h := hungry{load: load, mode: n, volts: math.Abs(p.Across(load)), least: least}
	return h, declared && h.volts < least*(1-same) || !declared && sags
}

// stepsKnown waits, for a load, for what the first wire of its way lacks that
// lacks anything.
func (c *Context) stepsKnown(load int, parts ...[]facts.Step) bool {
	for _, part := range parts {
		if slices.ContainsFunc(part, func(s facts.Step) bool { return !c.measured(s.Element, load) }) {
			return false
		}
	}
	return true
}

func (c *Context) starved(h hungry) {
	load := h.load
	e, p := &c.Network.Elements[load], c.Survey.Modes[h.mode]
	mode := c.Harness.Modes[h.mode].Name
	f := finding.Finding{At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: mode, Measured: &h.volts, Unit: "V"}
	switch {
	case h.least == 0:
		f.Message = fmt.Sprintf("the feed of `%s` cannot hold it up in `%s`: it gets %s V", e.Name, mode, number(h.volts))
		f.Limit, f.Source = &e.Load.LeastV, "common practice: drivers stop at about 0.6 of the system's volts"
		if e.Load.Watts == 0 {
			f.Limit, f.Source = nil, ""
		}
	default:
		f.Message = fmt.Sprintf("`%s` gets %s V in `%s`, and needs %s V: %s V too little", e.Name, number(h.volts), mode, number(h.least), number(h.short()))
		f.Limit, f.Source = &h.least, "the load's own `least`"
	}
	f.Figures = c.voltsOf(p, load, h.mode)
	c.Report(f)
}

// voltsOf says where a load's volts come from and where the most of them stay.
func (c *Context) voltsOf(p *states.Point, load, mode int) []string {
	way, ok := c.Path(load, p)
	if !ok {
		return nil
	}
	lines := []string{fmt.Sprintf("`%s` has %s V there", c.Network.Elements[way.Source].Name, number(way.SourceV))}
	if d, ok := c.DropTo(p, load, func(w *harness.Wire) float64 { return c.ModeC(w, mode) }); ok {
		lines = append(lines, fmt.Sprintf("%s V are lost on the way and back", number(d.Volts)), c.greatestSteps(d))
	}
	return lines
}

// collapsed: in the mode the loads ask for more than their feed can ever give,
// so that the network comes to rest nowhere.
func (c *Context) collapsed(mode int, fed facts.Fed) {
	greatest := -1
	for _, i := range c.loadElements() {
		if e := &c.Network.Elements[i]; fed.Runs(i) && (greatest < 0 || e.Load.AmpsAtRated() > c.Network.Elements[greatest].Load.AmpsAtRated()) {
			greatest = i
		}
	}
	if greatest < 0 {
		return
	}
	e, name := &c.Network.Elements[greatest], c.Harness.Modes[mode].Name
	c.Report(finding.Finding{
		At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: name,
		Message: fmt.Sprintf("in `%s` the loads ask for more than their feed can give, and the volts give way; `%s` draws the most of it", name, e.Name),
		Figures: []string{"no steady state was found, so no other figure of this mode holds"},
	})
}
