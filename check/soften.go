package check

import (
	"math"
	"strings"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
)

// soften turns a finding into advice where its subject is the machine's own
// and it would be there without the new items too, no milder and by no less.
// One that the new items caused or made worse keeps its severity and names
// them. Without is asked once, and only if there is anything to ask about.
func soften(list []finding.Finding, f *facts.Facts, without func() []finding.Finding) {
	var before map[string]finding.Finding
	for i := range list {
		found := &list[i]
		if !softens(found) || !f.Harness.IsExisting(found.Subject) {
			continue
		}
		if before == nil {
			before = bySubject(without())
		}
		old, was := before[found.Rule+" "+found.Subject]
		switch {
		case was && old.Severity >= found.Severity && !worse(old, *found):
			found.Severity = finding.Advice
			found.Figures = append(found.Figures, "the machine's own: it is so without the new items too")
		case was:
			blame(found, f, "the machine's own is at its limit by itself, and the new items make it worse")
		default:
			blame(found, f, "the machine's own is sound without the new items")
		}
	}
}

func bySubject(list []finding.Finding) map[string]finding.Finding {
	by := map[string]finding.Finding{}
	for _, f := range list {
		key := f.Rule + " " + f.Subject
		if old, ok := by[key]; !ok || f.Severity > old.Severity {
			by[key] = f
		}
	}
	return by
}

// worse reports whether a figure lies further beyond its limit than it did, by
// more than what a few new millivolts make.
func worse(old, now finding.Finding) bool {
	const same = 0.01
	if now.Measured == nil || now.Limit == nil || old.Measured == nil || old.Limit == nil {
		return false
	}
	was, is := math.Abs(*old.Measured-*old.Limit), math.Abs(*now.Measured-*now.Limit)
	return is > was+same*math.Abs(*now.Measured)
}

// blame names the new items that a finding about the machine's own comes from:
// new loads behind its subject, else new wires on it.
func blame(found *finding.Finding, f *facts.Facts, what string) {
	causes := newLoads(f, found.Subject)
	if len(causes) == 0 {
		causes = newWires(f.Harness, found.Subject)
	}
	const most = 3
	for _, c := range causes[:min(len(causes), most)] {
		found.Related = append(found.Related, finding.Related{Place: c.origin.Place(), Message: "new: " + c.name})
	}
	if len(causes) > 0 {
		what += ": " + names(causes)
	}
	found.Figures = append(found.Figures, what)
}

// cause is a new item.
type cause struct {
	name   string
	origin harness.Origin
}

func names(list []cause) string {
	var all []string
	for _, c := range list {
		all = append(all, c.name)
	}
	return strings.Join(all, ", ")
}

// newLoads lists the new loads that a subject's elements feed or bring back.
func newLoads(f *facts.Facts, subject string) []cause {
	seen := map[*harness.Device]bool{}
	var list []cause
	for i := range f.Network.Elements {
		e := &f.Network.Elements[i]
		if e.Name != subject || e.Kind == network.Load || e.Kind == network.Source {
			continue
		}
		loads, _ := f.Behind(i)
		for _, l := range loads {
			if d := f.Network.Elements[l].Device; !d.Existing && !seen[d] {
				seen[d] = true
				list = append(list, cause{d.Name, d.Origin})
			}
		}
	}
	return list
}

// newWires lists the new wires that land on a subject or on what it joins.
func newWires(h *harness.Harness, subject string) []cause {
	name, _, _ := strings.Cut(subject, ".")
	var list []cause
	for _, w := range h.Wires {
		for _, e := range w.Ends {
			if e.Terminal != nil && e.Terminal.Device.Name == name && !w.Existing {
				list = append(list, cause{w.Name, w.Origin})
				break
			}
		}
	}
	return list
}

// softens: what is borrowed from the machine, what its supply gives and what
// the author promised are never softened, nor is what cannot be judged.
func softens(f *finding.Finding) bool {
	area, _, _ := strings.Cut(f.Rule, "/")
	return f.Severity > finding.Advice && area != "tap" && area != "supply" && area != "require"
}
