package rules

import (
	"fmt"
	"math"

	"hame/check/facts"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "supply/deficit",
	Severity: finding.Error,
	Summary:  "with the engine running the loads ask for more than the alternator should give, or the battery gives",
	Why: "An alternator that is loaded to its limit never charges the battery again after a start, and runs hot. Where the battery has " +
		"to give too, it is flat at the end of the shift, engine running all the while.",
	Needs: "`output` of the alternator and, for a mode at idle, its `idle`; `already` for what the machine draws by itself (nothing where not said). Judged in " +
		"every declared mode with the engine idling or running; of `all_on`, which is implied, only where the harness has an alternator. Charging is left out. An error where half of a " +
		"battery's capacity is gone within the mode's time, or the mode has no end.",
	Limits: []Limit{
		{"", "loads at most 80 % of the alternator's output", "AC 43.13-1B", "11-35", "seen"},
		{"", "the battery gives nothing; half its capacity lasts for the mode's time", "common practice", "a starter battery below half of its charge ages", "common practice"},
	},
	Since: "0.1.0", Related: []string{"supply/drain", "require/broken"},
	Bad:   charged("20 A", "  # want supply/deficit"),
	Good:  charged("40 A", ""),
	Check: checkDeficit,
})

// charged is the shed with a heater and an alternator of some output.
func charged(output, want string) string {
	return shed("", `supply alternator alt { at shelf; output `+output+`; already 4 A; studs M6; covered }`+want+`
protection fuse f2 { at shelf; rating 30 A; family maxi; covered }
protection fuse a1 { at shelf; rating 60 A; family post; covered }
load heater warmer { at shelf; draws 150 W; least 9 V; meant always }
wire a1w main.pos -> a1.in 16 mm2 sgx red 0.15 m
wire a2w a1.out -> alt.pos 16 mm2 sgx red 0.5 m
wire a3w alt.neg -> main.neg 16 mm2 sgx black 0.5 m
wire w4 main.pos -> f2.in 4 mm2 red 0.15 m
wire w5 f2.out -> warmer.pos 4 mm2 red 1 m
wire w6 warmer.neg -> main.neg 4 mm2 black 1 m
mode driving { key on; engine running; for 1 h }
`, "")
}

// deficit is how a mode's loads stand against what the sources should give.
type deficit struct {
	mode    *harness.Mode
	loadA   float64
	outputA float64
	limitA  float64
	battery int     // the element of the one that is gone first; -1 where none gives
	amps    float64 // what it gives
	halfH   float64 // until half of it is gone
}

// fatal: half of a battery is gone within the mode's time, or the mode has none.
func (d deficit) fatal() bool {
	return d.battery >= 0 && (d.mode.ForS == 0 || d.halfH*3600 < d.mode.ForS)
}

// worse: what kills a battery, then what draws on one, then the greatest share.
func (d deficit) worse(o deficit) bool {
	switch {
	case d.fatal() != o.fatal():
		return d.fatal()
	case (d.battery >= 0) != (o.battery >= 0):
		return d.battery >= 0
	}
	return d.loadA-d.limitA > o.loadA-o.limitA
}

func checkDeficit(c *Context) {
	alternators := c.alternators()
	var worst *deficit
	for n, m := range c.Harness.Modes {
		p := c.Survey.Modes[n]
		if m.Engine != "idle" && m.Engine != "running" || c.Shorted(p) || p.Failed != nil || m.Implied && len(alternators) == 0 {
			continue
		}
		if m.Engine == "idle" && !c.idleKnown(alternators) {
			continue
		}
		d, ok := c.deficitIn(m, c.BalanceIn(p), alternators)
		if ok && (worst == nil || d.worse(*worst)) {
			worst = &d
		}
	}
	if worst != nil {
		c.deficit(*worst, alternators)
	}
}

func (c *Context) alternators() []int {
	var list []int
	for _, i := range c.Sources() {
		if c.Network.Elements[i].Source.Sort == "alternator" {
			list = append(list, i)
		}
	}
	return list
}

// idleKnown waits for what an alternator gives at idle.
func (c *Context) idleKnown(alternators []int) bool {
	known := true
	for _, i := range alternators {
		if e := &c.Network.Elements[i]; !e.Source.IdleKnown {
			known = false
			c.Wait(e.Device.Name, finding.Need{Name: e.Device.Name, Setting: "idle"}, e.Device.Origin.Place())
		}
	}
	return known
}

// deficitIn judges a mode's balance.
func (c *Context) deficitIn(m *harness.Mode, b facts.Balance, alternators []int) (deficit, bool) {
	const nothingA = 0.01
	d := deficit{mode: m, loadA: b.LoadA(), battery: -1, halfH: math.Inf(1)}
	for _, i := range alternators {
		spec := c.Network.Elements[i].Source
		if d.outputA += spec.OutputA; m.Engine == "idle" {
			d.outputA += spec.IdleA - spec.OutputA
		}
	}
	l, _ := c.Practice.Limit("alternator_load", "")
	d.limitA = d.outputA * l.Value / 100
	for _, g := range b.Batteries {
		capacity := c.Network.Elements[g.Element].Source.CapacityA
		if g.Amps > nothingA && capacity > 0 && capacity/2/g.Amps < d.halfH {
			d.battery, d.amps, d.halfH = g.Element, g.Amps, capacity/2/g.Amps
		}
	}
	return d, d.battery >= 0 || len(alternators) > 0 && d.loadA > d.limitA*(1+1e-6)
}

func (c *Context) deficit(d deficit, alternators []int) {
	l, _ := c.Practice.Limit("alternator_load", "")
	f := finding.Finding{Severity: finding.Warning, Mode: d.mode.Name, Measured: &d.loadA, Limit: &d.limitA, Unit: "A", Source: source(l.Source)}
	subject := d.battery
	if len(alternators) > 0 {
		subject = alternators[0]
		f.Figures = []string{fmt.Sprintf("loads and what is drawn already: %s, %s %% of %s; %s %% is allowed",
			amps(d.loadA), number(100*d.loadA/max(d.outputA, 1e-9)), amps(d.outputA), number(l.Value))}
	}
	e := &c.Network.Elements[subject]
	f.At, f.Subject = e.Device.Origin.Place(), e.Device.Name
	f.Message = fmt.Sprintf("in `%s` the loads ask `%s` for %s of its %s", d.mode.Name, e.Name, amps(d.loadA), amps(d.outputA))
	if d.battery >= 0 {
		c.drawnOn(&f, d, len(alternators) > 0)
	}
	c.Report(f)
}

// drawnOn says for how long the battery bears it.
func (c *Context) drawnOn(f *finding.Finding, d deficit, charged bool) {
	b := &c.Network.Elements[d.battery]
	f.Message += fmt.Sprintf(", and `%s` gives %s: half of it is gone in %s h", b.Name, amps(d.amps), number(d.halfH))
	if !charged {
		f.Message = fmt.Sprintf("in `%s` the engine turns and `%s` gives %s, for no alternator is declared: half of it is gone in %s h", d.mode.Name, b.Name, amps(d.amps), number(d.halfH))
		f.Measured, f.Limit, f.Source = finding.Amount(d.amps), finding.Amount(0), "common practice"
	}
	switch {
	case d.mode.ForS == 0:
		f.Figures = append(f.Figures, "the mode has no end")
	default:
		f.Figures = append(f.Figures, fmt.Sprintf("the mode lasts %s h", number(d.mode.ForS/3600)))
	}
	if d.fatal() {
		f.Severity = finding.Error
	}
	if b.Device.Name != f.Subject {
		f.Related = []finding.Related{{Place: b.Device.Origin.Place(), Message: "the battery that gives"}}
	}
}
