package check

import (
	"slices"

	"hame/lang/finding"
	"hame/lang/harness"
)

// ofTheWhole are the rules that conclude from all that is joined: what one
// mistake leaves out of a harness would be found again by each of them.
var ofTheWhole = map[string]bool{
	"graph/loose-end": true, "graph/no-feed": true, "graph/no-return": true, "graph/return-switched": true,
	"load/starved": true, "load/overvolted": true, "protection/stall": true, "require/broken": true,
	"supply/cutoff-bypassed": true, "supply/deficit": true, "supply/drain": true, "supply/load-dump": true,
	"switch/coil-volts": true, "wire/drop": true, "protection/missing": true, "protection/oversized": true, "protection/far": true, "protection/slow": true,
}

// hangsOn are the settings that a rule concludes from the absence of.
var hangsOn = map[string][]string{
	"bundle/bare":        {"through", "behind", "cover"},
	"connector/unsealed": {"seal"},
	"device/unsealed":    {"sealed"},
	"device/ignition":    {"note"},
	"terminal/uncovered": {"covered"},
	"protection/reset":   {"note"},
	"supply/unattended":  {"meant"},

	"switch/no-suppression": {"suppress"},
}

// withoutKnockOns drops what follows from a mistake that the binder has said,
// and open findings that wait for a fact which a setting/missing finding has
// named already; that one is told which rules wait.
func withoutKnockOns(judged []finding.Finding, bound harness.Result) []finding.Finding {
	missing := map[finding.Need]*finding.Finding{}
	for i := range bound.Findings {
		if f := &bound.Findings[i]; f.Rule == "setting/missing" && len(f.Needs) == 1 {
			missing[f.Needs[0]] = f
		}
	}
	return slices.DeleteFunc(judged, func(f finding.Finding) bool {
		if f.Severity != finding.Open || len(f.Needs) != 1 {
			return knockOn(f, bound.Harness)
		}
		m := missing[f.Needs[0]]
		if m == nil {
			return false
		}
		m.Holds = append(m.Holds, f.Rule)
		m.Figures = append(m.Figures, "not judged without it: "+f.Rule)
		return true
	})
}

// knockOn reports a finding that concludes from what a mistake took away.
func knockOn(f finding.Finding, h *harness.Harness) bool {
	return h.Torn && ofTheWhole[f.Rule] ||
		slices.ContainsFunc(hangsOn[f.Rule], func(setting string) bool { return h.Mistaken(f.Subject, setting) })
}
