package sizing

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
)

// verdict is what one check found, said of things that stay the same while
// sizes change.
type verdict struct {
	run     *check.Run
	wires   map[string]*harness.Wire
	devices map[source.Span]string // by the place of their names
	charges map[key]charge
}

// key is a rule and what it is about.
type key struct{ rule, thing string }

// charge is one finding about one thing.
type charge struct {
	key
	finding *finding.Finding
}

// grade orders severities; nothing found is below all.
func (v *verdict) grade(k key) finding.Severity {
	if c, ok := v.charges[k]; ok {
		return c.finding.Severity
	}
	return finding.Open
}

func (d *desk) judge(run *check.Run) *verdict {
	v := &verdict{run: run, wires: map[string]*harness.Wire{}, devices: map[source.Span]string{}, charges: map[key]charge{}}
	for _, w := range run.Harness.Wires {
		v.wires[w.Name] = w
	}
	for _, x := range run.Harness.Devices {
		if x.Origin.File == run.Files[0] {
			v.devices[x.Origin.Name] = x.Name
		}
	}
	for i := range run.Findings {
		f := &run.Findings[i]
		if f.Allowed != nil || f.Severity == finding.Open || !d.advised && f.Rule == "wire/drop" && f.Severity == finding.Advice {
			continue
		}
		for _, thing := range d.things(v, f) {
			v.charge(charge{key{f.Rule, thing}, f})
		}
	}
	return v
}

// charge keeps the gravest finding of a rule about a thing.
func (v *verdict) charge(c charge) {
	if old, ok := v.charges[c.key]; !ok || c.finding.Severity > old.finding.Severity {
		v.charges[c.key] = c
	}
}

// things are what a finding is about: of a drop the loads, for which wire of
// the way is named hangs on the sizes; of a device that is too big for a wire
// that wire; of a promise what is promised.
func (d *desk) things(v *verdict, f *finding.Finding) []string {
	switch f.Rule {
	case "wire/drop":
		if list := v.related(f); len(list) > 0 {
			return list
		}
	case "protection/oversized", "protection/slow":
		if list := d.relatedTargets(v, f); len(list) > 0 {
			return []string{f.Subject + " " + list[0].name}
		}
	case "require/broken":
		if f.Limit != nil {
			return []string{fmt.Sprintf("%s %g %s", f.Subject, *f.Limit, f.Unit)}
		}
	}
	return []string{f.Subject}
}

// related lists the devices that a finding points at.
func (v *verdict) related(f *finding.Finding) []string {
	var list []string
	for _, r := range f.Related {
		if name, ok := v.devices[r.Span]; ok && r.File == v.run.Files[0] {
			list = append(list, name)
		}
	}
	return list
}

// relatedTargets lists the wires to size that a finding points at.
func (d *desk) relatedTargets(v *verdict, f *finding.Finding) []*target {
	var list []*target
	for _, t := range d.targets {
		w := v.wireOf(t)
		for _, r := range f.Related {
			if w != nil && r.Span == w.Origin.Name && r.File == w.Origin.File {
				list = append(list, t)
			}
		}
	}
	return list
}

// inOrder lists the charges in one order.
func (v *verdict) inOrder() []charge {
	keys := slices.SortedFunc(maps.Keys(v.charges), func(a, b key) int {
		return cmp.Or(cmp.Compare(a.rule, b.rule), cmp.Compare(a.thing, b.thing))
	})
	var list []charge
	for _, k := range keys {
		list = append(list, v.charges[k])
	}
	return list
}

// troubles are the charges that thicker wires would mend, or make milder.
func (d *desk) troubles() []charge {
	var list []charge
	for _, c := range d.now.inOrder() {
		if c.finding.Severity > d.high.grade(c.key) {
			list = append(list, c)
		}
	}
	return list
}

// graver is the gravest charge of a verdict that an older one has not, or
// milder; of equals one about a wire itself.
func (v *verdict) graver(old *verdict, wire string) (charge, bool) {
	var worst charge
	for _, c := range v.inOrder() {
		switch {
		case c.finding.Severity <= old.grade(c.key):
		case worst.finding == nil, c.finding.Severity > worst.finding.Severity,
			c.finding.Severity == worst.finding.Severity && c.finding.Subject == wire && worst.finding.Subject != wire:
			worst = c
		}
	}
	return worst, worst.finding != nil
}

// indifferent: a finding that is the same however thin or thick the wires are is
// no matter of gauges.
func indifferent(a, b *finding.Finding) bool {
	if a.Severity != b.Severity {
		return false
	}
	if a.Message == b.Message {
		return true
	}
	const same = 0.01 // of the limit
	return a.Measured != nil && b.Measured != nil && a.Limit != nil && b.Limit != nil && *a.Limit == *b.Limit &&
		math.Abs(*a.Measured-*b.Measured) <= same*math.Abs(*a.Limit)
}
