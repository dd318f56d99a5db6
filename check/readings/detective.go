package readings

import (
	"math"
	"slices"

	"hame/check/network"
	"hame/check/trial"
)

const (
	mostFaults = 3   // that are looked for one after another
	shortlist  = 12  // suspects that are fitted in full
	leastGain  = 9.0 // by which a fault must better the sum of squares: three standard deviations
	alikeGain  = 6.6 // within which two suspects cannot be told apart: 1 in 100 lies outside
)

// detective asks which fault explains a report's readings.
type detective struct {
	plan   *trial.Plan
	m      *trial.Model
	report *Report
	seen   []observation
	lines  []trial.Line // of the observations
	values []float64
	all    []*hypothesis
	white  *whitener
	found  []change
}

func newDetective(plan *trial.Plan, r *Report) *detective {
	d := &detective{plan: plan, m: plan.Model, report: r, seen: observed(r.Items)}
	for _, o := range d.seen {
		d.lines, d.values = append(d.lines, o.line), append(d.values, o.value)
	}
	return d
}

// run looks for faults until none betters what is left.
func (d *detective) run() {
	for d.drifted() && len(d.found) < mostFaults && d.next() {
	}
	d.follow()
	explained := map[string]bool{}
	for _, f := range d.report.Findings {
		for _, id := range f.Explains {
			explained[id] = true
		}
	}
	for _, i := range d.report.Items {
		if i.State == Drifted && i.Why == "" && !explained[i.Line.ID] {
			d.report.Lost = append(d.report.Lost, i.Line.ID)
		}
	}
}

// drifted: something that the model can explain is out and not explained yet.
func (d *detective) drifted() bool {
	return slices.ContainsFunc(d.seen, func(o observation) bool {
		return d.report.Items[o.item].State == Drifted && !slices.ContainsFunc(d.report.Findings, func(f Finding) bool { return slices.Contains(f.Explains, o.line.ID) })
	})
}

// effect is what a hypothesis does to the observations.
type effect struct {
	h      *hypothesis
	column []float64 // by its step
	open   []float64 // with no connection; nil where that is no question
}

// next finds one more fault; false where there is none.
func (d *detective) next() bool {
	base, ok := predict(d.m, d.lines, d.found)
	if !ok {
		return false
	}
	if d.all == nil {
		d.all = hypotheses(d.m, d.settings())
	}
	effects := d.effects(base)
	if d.white == nil {
		d.white = newWhitener(d.sigmas(), d.together(base, effects))
	}
	left := d.white.of(minus(d.values, base))
	fits := d.fitAll(d.likely(effects, left), dot(left, left))
	if len(fits) == 0 {
		return false
	}
	best := fits[0]
	explains := d.explained(base, best.predicted)
	if dot(left, left)-best.left < leastGain || len(explains) == 0 {
		return false
	}
	d.found = append(d.found, change{best.h, best.size})
	d.report.Findings = append(d.report.Findings, d.finding(fits, explains))
	return true
}

// settings lists those that were measured in.
func (d *detective) settings() []int {
	var list []int
	for _, l := range d.lines {
		if s := l.Probe.Setting; s >= 0 && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	slices.Sort(list)
	return list
}

// effects solves every hypothesis once or twice; those that change nothing that
// was measured are left out.
func (d *detective) effects(base []float64) []effect {
	var list []effect
	severe := d.severe(base)
	for _, h := range d.all {
		if slices.ContainsFunc(d.found, func(c change) bool { return c.h == h }) {
			continue
		}
		moved, ok := predict(d.m, d.lines, append(slices.Clone(d.found), change{h, h.step}))
		if !ok {
			continue
		}
		e := effect{h: h, column: minus(moved, base)}
		if h.ohm && severe {
			if open, ok := predict(d.m, d.lines, append(slices.Clone(d.found), change{h, openOhm})); ok {
				e.open = minus(open, base)
			}
		}
		if slices.ContainsFunc(e.column, func(v float64) bool { return math.Abs(v) > nothing }) || e.open != nil {
			list = append(list, e)
		}
	}
	return list
}

// severe: something reads so far from what it should that a part may have no
// connection at all. A fault in proportion tells that one apart otherwise.
func (d *detective) severe(base []float64) bool {
	const share = 0.2 // of the system's volts
	for k, l := range d.lines {
		off := math.Abs(d.values[k] - base[k])
		if l.Kind == trial.Continuity && off > share || l.Kind != trial.Continuity && !l.Probe.Amps && off > share*d.m.Network.Harness.SystemV {
			return true
		}
	}
	return false
}

// nothing is a change that is the solver's last digits.
const nothing = 1e-9

func (d *detective) sigmas() []float64 {
	list := make([]float64, len(d.seen))
	for k, o := range d.seen {
		list[k] = o.sigma
	}
	return list
}

// together is what moves several readings at once while all is well.
func (d *detective) together(base []float64, effects []effect) [][]float64 {
	var columns [][]float64
	for _, e := range effects {
		spread := e.h.spread
		if e.h.Sort == loadSort && d.m.Network.Elements[e.h.element].Load.Hidden() {
			spread = hiddenSpread
		}
		switch {
		case e.h.Sort == sourceSort:
			columns = append(columns, d.bySetting(times(e.column, sourceSpread/e.h.step))...)
		case spread > 0:
			columns = append(columns, times(e.column, spread/e.h.step))
		}
	}
	for _, common := range []func([]network.Element){warmer, full} {
		if moved, ok := predict(d.m, d.lines, []change{{h: &hypothesis{set: func(e []network.Element, _ float64) { common(e) }}}}); ok {
			columns = append(columns, d.bySetting(minus(moved, base))...)
		}
	}
	return columns
}

// bySetting parts a column: from one setting to the next a battery runs down and
// an engine grows warm.
func (d *detective) bySetting(column []float64) [][]float64 {
	var parts [][]float64
	for _, s := range d.settings() {
		part := make([]float64, len(column))
		for k, l := range d.lines {
			if l.Probe.Setting == s {
				part[k] = column[k]
			}
		}
		parts = append(parts, part)
	}
	return parts
}

// warmer is copper that is warmer, or colder, than it was taken for.
func warmer(elements []network.Element) {
	for i := range elements {
		if w := elements[i].Wire; w != nil {
			elements[i].Ohm += warmthSpread * network.WireOhm(w)
		}
	}
}

// full is batteries that take next to nothing any more.
func full(elements []network.Element) {
	for i := range elements {
		if elements[i].Kind == network.Source && elements[i].Source.AcceptsA > 0 {
			spec := *elements[i].Source
			spec.AcceptsA *= 0.05
			elements[i].Source = &spec
		}
	}
}
