package sizing

import (
	"hame/check"
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/tables"
)

// desk is the work on one harness.
type desk struct {
	file    *source.File
	options Options
	memory  check.Memory
	targets []*target
	byName  map[string]*target
	sizes   []tables.Size // to choose from, the thinnest first

	checks, most int
	ended        bool
	thinnings    int

	low, top *verdict // everything as thin, and as thick, as its ends take
	high     *verdict // everything as thick as it may become
	now      *verdict // of the steps as they stand
	advised  bool     // what is only advised of drops counts too
}

// mostChecks caps the work on one harness whatever its size.
const mostChecks = 4000

func newDesk(f *source.File, o Options, targets []*target, awg bool) *desk {
	d := &desk{file: f, options: o, targets: targets, byName: map[string]*target{}, sizes: rules.Usual(awg)}
	const some, each = 100, 10
	d.most = min(some+each*len(targets), mostChecks)
	for _, t := range targets {
		t.most = len(d.sizes) - 1
		d.byName[t.name] = t
	}
	return d
}

// work begins with a guess, thickens until nothing is found that thicker wires
// would mend, then as far as it is worth for what is only advised, and then
// thins what is thicker than it must be.
func (d *desk) work() {
	if d.low = d.bounded(func(t *target) int { return t.least }); d.low == nil {
		return
	}
	if d.top = d.bounded(func(t *target) int { return t.most }); d.top == nil {
		return
	}
	d.high = d.top
	for _, t := range d.targets {
		t.step = d.guess(t)
	}
	if d.now = d.check(); d.now == nil {
		return
	}
	d.thicken()
	d.advise()
	d.thin()
}

// worthSteps is how many sizes a wire may grow for what is only advised: copper
// without end is no good advice (trade judgement, no source).
const worthSteps = 2

// advise thickens for the drops that are better not passed, within what is
// worth it; not at all where that would break a limit.
func (d *desk) advise() {
	must, before, most := d.steps(), d.now, map[*target]int{}
	for _, t := range d.targets {
		most[t] = t.most
		t.most = min(t.most, t.step+worthSteps)
		t.step = t.most
	}
	d.advised = true
	high := d.check()
	d.set(must)
	if high != nil {
		d.high, d.now = high, d.judge(before.run)
		d.thicken()
	}
	if c, worse := d.now.graver(before, ""); high == nil || worse && c.finding.Severity > finding.Advice {
		d.set(must)
		d.advised, d.high, d.now = false, d.top, before
	}
	for t, step := range most {
		t.most = step
	}
}

// steps are those of all wires as they stand.
func (d *desk) steps() steps {
	list := steps{}
	for _, t := range d.targets {
		list[t] = t.step
	}
	return list
}

func (d *desk) set(list steps) {
	for t, step := range list {
		t.step = step
	}
}

// bounded checks the harness with every wire at a bound, and draws the bounds in
// to what the wires' ends take.
func (d *desk) bounded(bound func(*target) int) *verdict {
	for {
		for _, t := range d.targets {
			t.step = bound(t)
		}
		v := d.check()
		if v == nil || !d.drawIn(v) {
			return v
		}
	}
}

// drawIn takes from the findings what a wire's ends take, and reports whether
// that changed a bound.
func (d *desk) drawIn(v *verdict) bool {
	changed := false
	for _, f := range v.run.Findings {
		t := d.byName[f.Subject]
		if f.Rule != "connector/gauge" || t == nil || f.Measured == nil || f.Limit == nil || f.Allowed != nil {
			continue
		}
		least, most := t.least, t.most
		if *f.Measured > *f.Limit {
			most = stepWithin(d.sizes, *f.Limit)
		} else {
			least = stepFor(d.sizes, *f.Limit)
		}
		if least > most { // its two ends take nothing in common
			continue
		}
		changed = changed || least != t.least || most != t.most
		t.least, t.most = least, most
	}
	return changed
}

// check has the harness checked with every wire at its step; nil where the work
// is to end.
func (d *desk) check() *verdict {
	if d.checks >= d.most || d.options.Stop != nil && d.options.Stop() {
		d.ended = true
		return nil
	}
	d.checks++
	o := d.options.Options
	o.Memory = &d.memory
	run := check.File(source.New(d.file.Name, d.text()), o)
	if run.Facts == nil && !run.Stopped { // the text is that of the last check
		o.Memory = nil
		run = check.File(run.Files[0], o)
	}
	if run.Stopped {
		d.ended = true
		return nil
	}
	return d.judge(run)
}

// text is the file's text with every wire at its step.
func (d *desk) text() string {
	var edits []finding.Edit
	for _, t := range d.targets {
		edits = append(edits, finding.Edit{Place: finding.Place{Span: t.span}, Text: d.sizes[t.step].String()})
	}
	return edited(d.file.Text, edits)
}

// wireOf is a target's wire in a checked harness.
func (v *verdict) wireOf(t *target) *harness.Wire { return v.wires[t.name] }
