package sizing

import (
	"fmt"
	"slices"

	"hame/check/facts"
	"hame/lang/finding"
	"hame/lang/tables"
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

// apart: the finding is there however thin or thick the wires are, and not
// because they cannot be any thicker. A device that is too big hides which wires
// it is too big for.
func (d *desk) apart(c charge) bool {
	low, ok := d.low.charges[c.key]
	top, okToo := d.top.charges[c.key]
	if !ok || !okToo || hides(c.rule) || !indifferent(low.finding, top.finding) {
		return false
	}
	p := d.pullOf(d.now, c)
	lost, may := 0.0, false
	for _, t := range p.all {
		may = may || t.least < t.most
	}
	for _, s := range p.way {
		lost += s.amps * s.target.lengthM * tables.ResistancePerM(d.sizes[s.target.step]).OhmPerM
		may = may || s.target.least < s.target.most
	}
	return may && (lost == 0 || lost < p.excess)
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
		if w == nil {
			continue
		}
		for _, p := range d.now.run.Facts.Protect.Cover(w).Paths {
			if a := facts.Answering(p); a != nil && a.Name == device && !slices.Contains(list, t) {
				list = append(list, t)
			}
		}
	}
	return list
}

// because says why what was found is no size's to mend.
func (d *desk) because(c charge, unanswered bool) string {
	const grave = finding.Warning
	thin, thick := d.low.grade(c.key) >= grave, d.top.grade(c.key) >= grave
	switch {
	case unanswered && d.ended:
		return "the work was cut short: " + c.finding.Message
	case unanswered:
		return "thicker wires do not mend it: " + c.finding.Message
	case hides(c.rule) && len(d.pullOf(d.now, c).all) == 0:
		return "not until that is put right: " + c.finding.Message
	case c.rule == "connector/gauge":
		return "no size fits both its ends: " + c.finding.Message
	case c.rule == "bundle/fill" && thin:
		return "the thinnest is too thick already: " + d.low.charges[c.key].finding.Message
	case thick && (thin || c.rule != "bundle/fill"):
		return d.notEnough(c) + d.top.charges[c.key].finding.Message
	}
	return "the size that all else asks for is too thick: " + c.finding.Message
}

func (d *desk) notEnough(c charge) string {
	for _, t := range d.blamed(c) {
		if t.most < len(d.sizes)-1 {
			return "no size that its connectors and splices take is enough: "
		}
	}
	return fmt.Sprintf("no size up to %s is enough: ", d.sizes[len(d.sizes)-1])
}
