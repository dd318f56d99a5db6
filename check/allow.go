package check

import (
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// allow marks the findings that the author accepts, and says which allowances
// match nothing, are past their date or name no rule.
func allow(list []finding.Finding, h *harness.Harness, today string) []finding.Finding {
	for _, a := range h.Allows {
		if rules.Find(a.Rule) == nil {
			list = append(list, unknownRule(a))
			continue
		}
		if a.Until != "" && today != "" && a.Until < today {
			list = append(list, expired(a))
			continue
		}
		if !mark(list, a) {
			list = append(list, unmatched(a))
		}
	}
	return list
}

// mark allows every finding of the rule on the subject.
func mark(list []finding.Finding, a *harness.Allow) bool {
	matched := false
	for i := range list {
		if list[i].Rule == a.Rule && list[i].Subject == a.On {
			list[i].Allowed = &finding.Allowed{Because: a.Because, Until: a.Until}
			matched = true
		}
	}
	return matched
}

func unknownRule(a *harness.Allow) finding.Finding {
	var names []string
	for _, r := range rules.All() {
		names = append(names, r.Name)
	}
	return finding.Finding{
		Rule: "name/unknown", Severity: finding.Error, At: a.Origin.Place(), Subject: a.On,
		Message: "no rule is named `" + a.Rule + "`" + kinds.DidYouMean(a.Rule, names),
	}
}

func expired(a *harness.Allow) finding.Finding {
	return finding.Finding{
		Rule: "allow/expired", Severity: finding.Warning, At: a.Origin.Place(), Subject: a.On,
		Message: "the allowance of `" + a.Rule + "` on `" + a.On + "` ended on " + a.Until,
		Figures: []string{"its reason was: " + a.Because, "look at it again, then give it a new date or take it out"},
	}
}

func unmatched(a *harness.Allow) finding.Finding {
	return finding.Finding{
		Rule: "allow/unused", Severity: finding.Warning, At: a.Origin.Place(), Subject: a.On,
		Message: "nothing is found by `" + a.Rule + "` on `" + a.On + "`, so there is nothing to allow",
		Figures: []string{"take the allowance out, or it hides the next finding of that kind"},
	}
}
