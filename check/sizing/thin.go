package sizing

import (
	"cmp"
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/tables"
)

// thin takes wires a step thinner, those first that save the most copper, and
// keeps what no finding speaks against. It ends when a step less of any one wire
// is found fault with, each tried with all others as they are in the end.
func (d *desk) thin() {
	d.settle()
	order := slices.Clone(d.targets)
	for {
		slices.SortStableFunc(order, func(a, b *target) int { return cmp.Compare(d.saves(b), d.saves(a)) })
		tried := false
		for _, t := range order {
			for t.step > t.least && !t.settled && t.tightAt != d.thinnings && !d.ended {
				tried = true
				if !d.thinner(t) {
					break
				}
			}
		}
		if !tried || d.ended {
			break
		}
	}
	d.floor()
}

// floor asks what speaks against less than the ends of wires take.
func (d *desk) floor() {
	was, asked := d.steps(), false
	for _, t := range d.targets {
		if t.tight == nil && t.step == t.least && t.step > 0 {
			t.step--
			asked = true
		}
	}
	if asked {
		d.keep(was)
	}
}

// settled are the rules that judge a wire by its own gauge alone: what they find
// of one holds whatever the others become.
var settled = map[string]bool{"wire/thin": true, "connector/gauge": true, "tap/unprotected": true, "protection/oversized": true}

// settle tries all wires a step thinner at once, and keeps what such rules find.
func (d *desk) settle() {
	was := d.steps()
	for _, t := range d.targets {
		t.step = max(t.step-1, t.least)
	}
	d.keep(was)
}

// keep has the harness checked with wires a step thinner than they were, keeps
// what settles one of them, and puts them back.
func (d *desk) keep(was steps) {
	v := d.check()
	if v == nil {
		d.set(was)
		return
	}
	for _, c := range v.inOrder() {
		if !settled[c.rule] || c.finding.Severity <= d.now.grade(c.key) {
			continue
		}
		for _, t := range d.pullOf(v, c).all {
			if t.step < was[t] && !t.settled {
				t.settled = true
				d.tighten(t, c, d.sizes[t.step])
			}
		}
	}
	d.set(was)
}

// tighten keeps what speaks against a size.
func (d *desk) tighten(t *target, c charge, s tables.Size) {
	t.tight, t.about, t.tightAt = &Smaller{Size: s, Finding: placeless(*c.finding), Says: says(c)}, c.thing, d.thinnings
}

// says is what a charge says: of a load, or one of its inputs, that a finding
// names beside another, its own line.
func says(c charge) string {
	for _, line := range c.finding.Figures {
		own := strings.HasPrefix(line, "`"+c.thing+"` loses ") || strings.HasPrefix(line, "`"+c.thing+".")
		if c.rule == "wire/drop" && own {
			return line
		}
	}
	return c.finding.Message
}

func (d *desk) saves(t *target) float64 {
	if t.step == 0 {
		return 0
	}
	return d.copper(t, t.step-1)
}

// thinner tries a wire a step thinner, and reports whether it stays so.
func (d *desk) thinner(t *target) bool {
	t.step--
	v := d.check()
	if v != nil {
		c, worse := v.graver(d.now, t.name)
		if !worse {
			d.now = v
			d.thinnings++
			t.tight = nil
			return true
		}
		d.tighten(t, c, d.sizes[t.step])
	}
	t.step++
	return false
}

// placeless is a finding without places: they are of a text that nobody has.
func placeless(f finding.Finding) finding.Finding {
	f.At, f.Related, f.Fix = finding.Place{}, nil, nil
	return f
}
