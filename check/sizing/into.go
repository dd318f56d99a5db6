package sizing

import (
	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// into writes the result down.
func (d *desk) into(r *Result) {
	r.Checks += d.checks
	r.Ended = d.ended
	if d.now == nil {
		for _, t := range d.targets {
			t.reason, t.helps = "the work was cut short before a size was found", "fewer wires at a time"
			r.Wires = append(r.Wires, d.result(t))
		}
		return
	}
	d.blame()
	for _, t := range d.targets {
		d.lack(t)
		r.Wires = append(r.Wires, d.result(t))
	}
	for _, f := range d.now.run.Findings {
		if _, ok := gauged[f.Rule]; ok && f.Severity == finding.Open && f.Allowed == nil {
			r.Open = append(r.Open, f)
		}
	}
	r.Run = d.now.run
	if r.Unsized() > 0 && !r.Ended {
		r.Run = check.File(source.New(d.file.Name, r.Text()), d.options.Options)
		r.Checks++
		r.Ended = r.Run.Stopped
	}
}

func (d *desk) result(t *target) Wire {
	w := t.wire()
	w.Size, w.Sized = d.sizes[t.step], t.reason == ""
	if !w.Sized {
		w.Reason, w.Rule, w.Helps = t.reason, t.rule, t.helps
		return w
	}
	if t.tight != nil {
		w.Smaller, w.Rule = t.tight, t.tight.Finding.Rule
	}
	w.Decides = d.decides(t)
	return w
}

// lack leaves a wire without a size that the main rules cannot judge.
func (d *desk) lack(t *target) {
	w := d.now.wireOf(t)
	if t.reason != "" || w == nil {
		return
	}
	_, insulated := w.Cable()
	capped := w.Ends[0].Capped || w.Ends[1].Capped
	fw := d.now.run.Facts.Wire(w)
	lacks := func(rule, what, helps string) { t.rule, t.reason, t.helps = rule, what, helps }
	switch {
	case !w.HasLength:
		lacks("wire/drop", "its drop cannot be judged: it has no length", "`at` of what its ends land on and bundles between, or a length of its own")
	case !insulated:
		lacks("wire/undersized", "its ampacity cannot be judged: it has no insulation", "its own, or `wire` of `"+d.now.run.Harness.Name+"`")
	case fw.AmbientC == nil && !capped:
		lacks("wire/undersized", "its ampacity cannot be judged: it is not known how warm it is on its way", d.unknownAmbient(t))
	case fw.Ampacity == nil && fw.AmbientC != nil:
		lacks("wire/undersized", "its ampacity cannot be judged: no table has its insulation's class", "an insulation of 60 degC or more")
	case fw.WorstA == nil:
		lacks("graph/dead-short", "its current cannot be judged: a source is shorted in some position", "mend that first")
	}
}

// unknownAmbient says what has to be declared.
func (d *desk) unknownAmbient(t *target) string {
	for _, z := range d.now.wireOf(t).Zones() {
		if !z.Known {
			return "`ambient` of `" + z.Name + "`"
		}
	}
	return "`at` of what its ends land on"
}
