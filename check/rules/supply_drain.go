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
	Name:     "supply/drain",
	Severity: finding.Warning,
	Summary:  "with the key off more is drawn than the battery bears until the next start",
	Why: "A machine that stands over a few weeks must still start. A lead-acid battery that is left below half of its charge does not " +
		"crank in the cold, and its plates harden.",
	Needs: "`capacity` and `standby` of the battery (nothing where not said), and a mode with key and engine off; with no mode declared, `key_off`, in which supply/unattended speaks of the loads that are not meant to be on. In a mode of less " +
		"than a day (trade judgement) the loads that are on are in use: only what the machine, borrowed circuits and loads on `standby` draw is held to the standing draw, " +
		"and all together to the mode's time.",
	Limits: []Limit{
		{"", "0.7 mA per Ah, which takes half of the capacity in 30 days", "common practice", "key-off draw", "trade judgement"},
		{"", "half of the capacity lasts for the mode's time", "common practice", "a starter battery below half of its charge ages", "common practice"},
	},
	Since: "0.1.0", Related: []string{"supply/unattended", "supply/deficit"},
	Bad:   parked("80 mA", "  # want supply/drain"),
	Good:  parked("20 mA", ""),
	Check: checkDrain,
})

// parked is a machine that stands, with what it draws by itself.
func parked(standby, want string) string {
	return `harness yard { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; standby ` + standby + `; post M8; covered }` + want + `
protection fuse f1  { at shelf; rating 10 A; covered }
switch key ignition { at shelf; rating 10 A; tabs 6.3 }
load led lamp       { at shelf; draws 27 W; least 9 V }
wire w1 main.pos     -> f1.in       2.5 mm2 red   0.15 m
wire w2 f1.out       -> ignition.in 2.5 mm2 red   1 m
wire w4 ignition.ign -> lamp.pos    2.5 mm2 red   1 m
wire w3 lamp.neg     -> main.neg    2.5 mm2 black 1 m
mode lit    { key on;  engine off; for 1 h }
mode parked { key off; engine off; for 72 h }
`
}

// drain is what a battery gives with the key off.
type drain struct {
	mode     *harness.Mode
	at       *states.Point
	amps     float64
	standing float64 // of it, what counts against the standing draw
	limitA   float64 // that is allowed of that
	halfH    float64
}

func (d drain) outlasted() bool { return d.mode.ForS > 0 && d.halfH*3600 < d.mode.ForS }

func (d drain) over() bool { return d.standing > d.limitA*(1+1e-6) || d.outlasted() }

func checkDrain(c *Context) {
	for _, i := range c.Sources() {
		e := &c.Network.Elements[i]
		if e.Source.Sort != "battery" || e.Source.CapacityA == 0 {
			continue
		}
		var worst *drain
		for n, m := range c.Harness.Modes {
			p := c.Survey.Modes[n]
			if m.Key != "off" || m.Engine != "off" || c.Shorted(p) || p.Failed != nil {
				continue
			}
			if d := c.drainOf(i, m, p); d.over() && (worst == nil || d.amps > worst.amps) {
				worst = &d
			}
		}
		if worst != nil {
			c.drained(i, *worst)
		}
	}
}

func (c *Context) drainOf(battery int, m *harness.Mode, p *states.Point) drain {
	const dayS, nothingA = 24 * 3600, 1e-6
	l, _ := c.Practice.Limit("standing_draw", "")
	capacity := c.Network.Elements[battery].Source.CapacityA
	d := drain{mode: m, at: p, amps: max(p.Amps(battery), 0), limitA: l.Value / 1000 * capacity}
	d.halfH = capacity / 2 / max(d.amps, nothingA)
	d.standing = d.amps
	switch {
	case m.Implied:
		d.standing = max(0, d.amps-c.unmeantAmps(p))
	case m.ForS > 0 && m.ForS < dayS:
		d.standing = min(d.amps, c.standingAmps(p))
	}
	return d
}

// standingAmps is what is drawn whatever one switches: by the machine, by the
// circuits that are borrowed from, and by loads on standby.
func (c *Context) standingAmps(p *states.Point) float64 {
	sum := 0.0
	for _, i := range c.loads() {
		if e := &c.Network.Elements[i]; e.Load.Hidden() || e.Load.StandbyA > 0 {
			sum += math.Abs(p.Amps(i))
		}
	}
	return sum
}

// unmeantAmps is what loads draw that supply/unattended speaks of: nobody said
// that they are on in a machine that stands.
func (c *Context) unmeantAmps(p *states.Point) float64 {
	sum := 0.0
	for _, i := range c.loadElements() {
		if d := c.Network.Elements[i].Device; !d.Has("meant") && !d.Has("standby") {
			sum += math.Abs(p.Amps(i))
		}
	}
	return sum
}

func (c *Context) drained(battery int, d drain) {
	e := &c.Network.Elements[battery]
	f := finding.Finding{
		At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: d.mode.Name, Source: "common practice: standing draw",
		Message: fmt.Sprintf("`%s` gives %s in `%s`, with the key off: half of it is gone in %s", e.Name, milliamps(d.amps), d.mode.Name, span(d.halfH)),
	}
	if d.outlasted() {
		hours := d.mode.ForS / 3600
		f.Message += fmt.Sprintf(", and the mode lasts %s", span(hours))
		f.Measured, f.Limit, f.Unit = &d.halfH, &hours, "h"
	} else {
		f.Measured, f.Limit, f.Unit = &d.standing, &d.limitA, "A"
		f.Figures = append(f.Figures, fmt.Sprintf("%s Ah allow %s of standing draw: 0.7 mA per Ah take half of it in 30 days", number(e.Source.CapacityA), milliamps(d.limitA)))
	}
	f.Figures = append(f.Figures, c.drawnBy(d.at)...)
	c.Report(f)
}

// drawnBy lists what draws the most.
func (c *Context) drawnBy(p *states.Point) []string {
	var lines []string
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		const nothingA, most = 0.0005, 6
		if a := math.Abs(p.Amps(i)); e.Load.Sort != "converter" && a > nothingA && len(lines) < most {
			lines = append(lines, fmt.Sprintf("`%s` draws %s", drawerName(e), milliamps(a)))
		}
	}
	return lines
}

func drawerName(e *network.Element) string {
	if e.Load.Coil != nil || e.Device.Is(kinds.Load) {
		return e.Name
	}
	return e.Device.Name
}

func milliamps(a float64) string {
	if a >= 1 {
		return amps(a)
	}
	return number(a*1000) + " mA"
}

// span is a time in hours as one speaks of it.
func span(hours float64) string {
	if hours > 48 {
		return number(hours/24) + " days"
	}
	return number(hours) + " h"
}
