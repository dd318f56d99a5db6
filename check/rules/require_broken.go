package rules

import (
	"fmt"
	"math"

	"hame/lang/finding"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "require/broken",
	Severity: finding.Error,
	Summary:  "a requirement does not hold",
	Why: "A requirement is what the author promises whoever buys, drives or mends the machine. It is written down so that the next " +
		"change, by someone who does not know why, cannot break it unseen.",
	Needs: "What the figure hangs on: gauges and lengths on the way, of a warmth also the insulation and every ambient. Without `in` it is judged in every declared " +
		"mode in which its subject is on, and is open where none is. Of several modes the worst is named. A current is positive into a load and out of " +
		"a supply; that of a wire, contact or fuse counts without its direction, unless the limit is nothing or less. " +
		"A mode with a dead short is left to that rule.",
	Limits: []Limit{{"", "what the harness promises", "the harness itself", "", "as declared"}},
	Since:  "0.1.0", Related: []string{"load/starved", "wire/drop"},
	Bad:   shed("", "require lamp volts >= 13 V in lit  # want require/broken\n", ""),
	Good:  shed("", "require lamp volts >= 11 V in lit\nrequire main current <= 3 A\nrequire w2 warmth < 60 degC\nrequire lamp drop <= 3 %\n", ""),
	Check: checkRequires,
})

// breach is by how much a promise is broken in a mode.
type breach struct {
	mode     int
	measured float64
	by       float64
}

func checkRequires(c *Context) {
	for _, r := range c.Harness.Requires {
		c.judgePromise(c.promised(r))
	}
}

func (c *Context) judgePromise(r *promise) {
	if r.nonsense() {
		c.Report(finding.Finding{
			At: r.Origin.Place(), Subject: r.Name,
			Message: fmt.Sprintf("`%s` has no %s that could be promised", r.Name, r.What),
			Figures: []string{"volts are across a load, a coil or a supply; current is through a load, wire, contact or fuse; warmth is a wire's"},
		})
		return
	}
	var worst *breach
	judged := false
	for n, m := range c.Harness.Modes {
		if r.Mode != nil && r.Mode != m || r.Mode == nil && !c.onIn(r, n) {
			continue
		}
		judged = true
		if b, ok := c.breached(r, n); ok && (worst == nil || b.by > worst.by) {
			worst = &b
		}
	}
	switch {
	case worst != nil:
		c.broken(r, *worst)
	case !judged:
		c.neverOn(r)
	}
}

// breached judges a promise in a mode.
func (c *Context) breached(r *promise, n int) (breach, bool) {
	p := c.Survey.Modes[n]
	if c.Shorted(p) {
		return breach{}, false
	}
	if p.Failed != nil {
		return breach{n, math.NaN(), math.Inf(1)}, true
	}
	v, ok := c.value(r, n)
	if !ok {
		c.waitForPromise(r)
		return breach{}, false
	}
	limit, _ := c.limitSI(r)
	by, broken := exceeds(v, r.Op, limit)
	return breach{n, v, by}, broken
}

// exceeds says whether a figure is on the wrong side of a limit, and by how
// much. What lies within the solver's last digits of it counts as equal.
func exceeds(v float64, op string, limit float64) (by float64, broken bool) {
	same := 1e-6 * max(1, math.Abs(limit))
	switch op {
	case "<":
		return v - limit, v > limit-same
	case "<=":
		return v - limit, v > limit+same
	case ">":
		return limit - v, v < limit+same
	}
	return limit - v, v < limit-same
}

// waitForPromise says which fact a wire's figure lacks. Those of a load's way
// are said by what works the drop out.
func (c *Context) waitForPromise(r *promise) {
	switch {
	case r.Wire == nil:
	case r.Wire.AreaMM2 == 0:
		c.Wait(r.Name, finding.Need{Name: r.Wire.Name, Setting: "gauge"}, r.Wire.Origin.Place())
	case r.What == "warmth":
		c.waitForHeat(r.Wire)
	case r.Wire.Ends[0].Place() == nil || r.Wire.Ends[1].Place() == nil: // else graph/unreachable says so
		c.waitForPlace(r.Wire)
	}
}

// figureWords are the figures as a sentence has them.
var figureWords = map[string]string{"volts": "gets", "current": "carries", "drop": "loses", "warmth": "grows as hot as"}

func (c *Context) broken(r *promise, b breach) {
	mode := c.Harness.Modes[b.mode].Name
	limit, unit := c.limitSI(r)
	f := finding.Finding{
		At: r.Origin.Place(), Subject: r.Name, Mode: mode, Source: "the harness's own promise",
		Measured: &b.measured, Limit: &limit, Unit: unit,
	}
	promised := fmt.Sprintf("%s %s is promised", r.Op, plain(limit, unit))
	if math.IsNaN(b.measured) {
		f.Measured = nil
		f.Message = fmt.Sprintf("%s for `%s`, and in `%s` its feed gives way altogether", promised, r.Name, mode)
		c.Report(f)
		return
	}
	f.Message = fmt.Sprintf("`%s` %s %s in `%s`, and %s: %s off", r.Name, figureWords[r.What], plain(b.measured, unit), mode, promised, plain(math.Abs(b.by), unit))
	if r.Device != nil {
		f.Related = []finding.Related{{Place: r.Device.Origin.Place(), Message: "what it is about"}}
	} else {
		f.Related = []finding.Related{{Place: r.Wire.Origin.Place(), Message: "what it is about"}}
	}
	if p := c.Survey.Modes[b.mode]; (r.What == "volts" || r.What == "drop") && r.Device != nil && !r.Device.Is(kinds.Supply) {
		f.Figures = c.voltsOf(p, r.elements[0], b.mode)
	}
	c.Report(f)
}

func plain(v float64, unit string) string { return number(v) + " " + unit }

// neverOn: a promise that no declared mode puts to the test.
func (c *Context) neverOn(r *promise) {
	c.Report(finding.Finding{
		Severity: finding.Open, At: r.Origin.Place(), Subject: r.Name, Needs: []finding.Need{{Name: r.Name, Setting: "mode"}},
		Message: fmt.Sprintf("the promise on `%s` cannot be judged until a `mode` that has it on is declared", r.Name),
	})
}
