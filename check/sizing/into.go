package sizing

import (
	"fmt"
	"slices"

	"hame/check"
	"hame/check/facts"
	"hame/lang/finding"
	"hame/lang/source"
)

// gauged are the rules that a wire's gauge answers to, and what would help where
// no size satisfies one.
var gauged = map[string]string{
	"bundle/fill":          "a wider cover or grommet, or fewer wires in the bundle",
	"connector/gauge":      "a part that takes the size, or a piece of another gauge spliced on",
	"ground/offset":        "a shorter or a separate return",
	"ground/overloaded":    "a second return, or a cooler way",
	"ground/sneak":         "a return of its own for each load",
	"ground/thin":          "a smaller device ahead of the feed, or an insulation of a higher class",
	"load/overvolted":      "a lower supply, or a load that bears more",
	"load/starved":         "a nearer source, a shorter way, or a load that bears less",
	"protection/missing":   "a protective device at the source",
	"protection/oversized": "a smaller device",
	"protection/slow":      "a smaller or a faster device",
	"require/broken":       "a shorter way, a nearer source, or a promise that can be kept",
	"switch/coil-volts":    "a nearer source, or a coil that pulls in at less",
	"tap/unprotected":      "a device of its own where it leaves the borrowed circuit",
	"wire/drop":            "a nearer source, a shorter way, or two circuits in the place of one",
	"wire/hot":             "fewer wires in the bundle, a cooler way, or an insulation of a higher class",
	"wire/thin":            "a cover, under which a thinner wire is allowed",
	"wire/undersized":      "two circuits in the place of one, a cooler way, or an insulation of a higher class",
}

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
	if r.Unsized() > 0 {
		r.Run = check.File(source.New(d.file.Name, r.Text()), d.options.Options)
		r.Checks++
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

// blame leaves those wires without a size that what is still found is about.
func (d *desk) blame() {
	for _, c := range d.now.inOrder() {
		helps, ok := gauged[c.rule]
		unanswered := c.finding.Severity > d.top.grade(c.key)
		if c.finding.Severity < finding.Warning || !ok && !unanswered || d.apart(c) {
			continue
		}
		for _, t := range d.blamed(c) {
			if t.reason == "" {
				t.reason, t.rule, t.helps = d.because(c, unanswered), c.rule, helps
			}
		}
	}
}

// apart: the finding is there however thin or thick the wires are. A device that
// is too big hides which wires it is too big for.
func (d *desk) apart(c charge) bool {
	low, ok := d.low.charges[c.key]
	high, okToo := d.top.charges[c.key]
	return ok && okToo && !hides(c.rule) && indifferent(low.finding, high.finding)
}

func hides(rule string) bool { return rule == "protection/oversized" || rule == "protection/slow" }

// blamed are the wires that a charge is about.
func (d *desk) blamed(c charge) []*target {
	p := d.pullOf(d.now, c)
	list := p.all
	for _, s := range p.way {
		list = append(list, s.target)
	}
	if hides(c.rule) && len(list) == 0 {
		list = d.answered(c.finding.Subject)
	}
	return list
}

// answered are the wires to size that a device answers for.
func (d *desk) answered(device string) []*target {
	var list []*target
	for _, t := range d.targets {
		w := d.now.wireOf(t)
		cover := d.now.run.Facts.Protect.Wires[w]
		if w == nil || cover == nil {
			continue
		}
		for _, p := range cover.Paths {
			if a := facts.Answering(p); a != nil && a.Name == device && !slices.Contains(list, t) {
				list = append(list, t)
			}
		}
	}
	return list
}

func (d *desk) because(c charge, unanswered bool) string {
	high, ok := d.top.charges[c.key]
	switch {
	case unanswered && d.ended:
		return "the work was cut short: " + c.finding.Message
	case unanswered:
		return "thicker wires do not mend it: " + c.finding.Message
	case hides(c.rule) && len(d.pullOf(d.now, c).all) == 0:
		return "not until that is put right: " + c.finding.Message
	case ok && high.finding.Severity >= finding.Warning:
		return fmt.Sprintf("no size up to %s is enough: %s", d.sizes[len(d.sizes)-1], high.finding.Message)
	}
	return "the size that all else asks for is too thick: " + c.finding.Message
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
