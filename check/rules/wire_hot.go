package rules

import (
	"cmp"
	"fmt"
	"slices"

	"hame/check/facts"
	"hame/check/figures"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "wire/hot",
	Severity: finding.Error,
	Summary:  "computed conductor temperature, with the real currents of its whole bundle, above the insulation's class",
	Why: "The tables rate a wire with air around it. In the middle of a full loom, in an engine bay, it cannot shed its " +
		"heat: the insulation cooks at a current that the table allows.",
	Needs: "The gauge and insulation of every wire in the bundle, its `cover`, and the ambient of every zone. Judged at the greatest ambient, in the position in which " +
		"the bundle makes the most heat and in that of each wire's own worst current, cranking left out because it is short; still air at sea level, each wire taken to lie in the " +
		"middle of its bundle. Of wires that are too hot in one bundle the one with the least margin is named and the others with it. " +
		"What wire/undersized, ground/overloaded or wire/insulation say already is not said again.",
	Limits: []Limit{
		{"", "the cable's temperature class; a warning within 10 K of it", "SAE J1128, ISO 6722-1 and the cable's own standard", "", "seen; ISO, UL and AS from memory"},
		{"", "heat balance of the bundle", "Churchill and Chu 1975, with conduction in the manner of IEC 60287", "", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/undersized", "wire/insulation", "bundle/fill"},
	Bad:     hotRun("2.5", "  # want wire/hot"),
	Good:    hotRun("4", ""),
	Check:   checkHot,
})

// hotRun is two heaters' wires in one loom through a hot place, in a size.
func hotRun(size, want string) string {
	return `harness bay { system 12 V; practice cfr183; wire flry; slack 100 mm }
zone  bay { ambient 0..60 degC }
place shelf, block in bay
bundle b1 shelf -> block 0.6 m { cover loom_pa; clamp every 400 mm }
supply battery main { at shelf; capacity 100 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 30 A; family post; covered }
protection fuse f2  { at shelf; rating 30 A; family post; covered }
load heater left    { at block; draws 270 W; least 9 V; meant always }
load heater right   { at block; draws 270 W; least 9 V; meant always }
wire w1 main.pos  -> f1.in     6 mm2 red   0.15 m
wire w2 main.pos  -> f2.in     6 mm2 red   0.15 m
wire w3 f1.out    -> left.pos  ` + size + ` mm2 red` + want + `
wire w4 f2.out    -> right.pos ` + size + ` mm2 orange
wire w5 left.neg  -> main.neg  ` + size + ` mm2 black
wire w6 right.neg -> main.neg  ` + size + ` mm2 black
mode warm { for 20 min }
`
}

// nearK is how near to its class a wire may come without a word (trade
// judgement, no source).
const nearK = 10

// hotWire is a wire that is too hot, with the class that it bears.
type hotWire struct {
	wire  *harness.Wire
	cable tables.CableType
	facts.Warmth
}

func (h hotWire) margin() float64 { return h.cable.TemperatureC - h.TempC }

func checkHot(c *Context) {
	var order []*harness.Bundle
	hot := map[*harness.Bundle][]hotWire{}
	for _, w := range c.Harness.Wires {
		h, ok := c.tooHot(w)
		switch {
		case !ok:
		case h.Bundle == nil:
			c.hot([]hotWire{h})
		default:
			if hot[h.Bundle] == nil {
				order = append(order, h.Bundle)
			}
			hot[h.Bundle] = append(hot[h.Bundle], h)
		}
	}
	for _, b := range order {
		slices.SortStableFunc(hot[b], func(x, y hotWire) int { return cmp.Compare(x.margin(), y.margin()) })
		c.hot(hot[b])
	}
}

// tooHot judges one wire.
func (c *Context) tooHot(w *harness.Wire) (hotWire, bool) {
	cable, insulated := w.Cable()
	warmth, known := c.Warmth(w)
	if !insulated || !known {
		c.waitForHeat(w)
		return hotWire{}, false
	}
	h := hotWire{w, cable, warmth}
	_, ambientC := sunniest(w)
	switch {
	case h.margin() >= nearK, ambientC > cable.TemperatureC:
		return h, false
	case c.overAmpacity(w):
		return h, false
	}
	return h, true
}

// waitForHeat says what a wire's temperature hangs on and lacks: facts of its
// own, or of what it lies with.
func (c *Context) waitForHeat(w *harness.Wire) {
	if f := c.Wire(w); f.Ampacity == nil {
		if f.WorstA != nil && *f.WorstA > 0 {
			c.WaitForAmpacity(w)
		}
		return
	}
	for _, b := range w.Route {
		for _, m := range b.Members {
			if _, ok := m.OutsideDiameterMM(); !ok {
				c.waitForCable(w.Name, m)
				return
			}
		}
	}
}

// hot reports wires that are too hot in one place, that of the least margin
// first.
func (c *Context) hot(list []hotWire) {
	h := list[0]
	class := h.cable.TemperatureC
	f := finding.Finding{
		At: h.wire.Origin.Place(), Subject: h.wire.Name, Mode: where(position(h)),
		Message:  fmt.Sprintf("`%s` reaches %s %s, and its %s bears %s", h.wire.Name, reached(h), whereHot(h), h.cable.Name, degrees(class)),
		Measured: &h.TempC, Limit: &class, Unit: "degC", Source: source(h.cable.Source),
		Figures: []string{fmt.Sprintf("it carries %s where it is %s", amps(h.Amps), degrees(h.AmbientC))},
	}
	if h.margin() >= 0 {
		f.Severity = finding.Warning
		f.Message += ": less than 10 K are left"
	}
	if h.Bundle != nil {
		f.Related = append(f.Related, finding.Related{Place: h.Bundle.Origin.Place(), Message: fmt.Sprintf("here, one of %d wires", len(h.Bundle.Members))})
	}
	const most = 8
	for _, other := range list[1:min(len(list), most+1)] {
		f.Figures = append(f.Figures, fmt.Sprintf("`%s` reaches %s of %s there", other.wire.Name, reached(other), degrees(other.cable.TemperatureC)))
	}
	if more := len(list) - 1 - most; more > 0 {
		f.Figures = append(f.Figures, fmt.Sprintf("and so do %d more", more))
	}
	c.Report(f)
}

func position(h hotWire) *figures.Position {
	if h.At == nil {
		return nil
	}
	return h.At.Position.Figure()
}

// reached is the temperature in words: beyond the melting point there is no
// balance.
func reached(h hotWire) string {
	if h.Runaway() {
		return "no balance below " + degrees(h.TempC)
	}
	return degrees(h.TempC)
}

func whereHot(h hotWire) string {
	if h.Bundle == nil {
		return "by itself"
	}
	return "in `" + h.Bundle.Name + "`"
}
