package report

import (
	"hame/check/rules"
	"hame/lang/finding"
)

// Never, as a gate's FailOn, lets every finding through but what stays open of a
// safety rule: that is AllowOpen's to let through.
const Never = finding.Error + 1

// Gate says what makes a check fail.
type Gate struct {
	FailOn    finding.Severity // the least severity that fails, or Never
	AllowOpen bool             // an open safety rule does not fail
	Safety    func(rule string) bool
}

// Fails reports whether the finding is at or above the gate. One that the
// author allows is not; an open one is where its rule is a safety rule.
func (g Gate) Fails(f finding.Finding) bool {
	switch {
	case f.Allowed != nil:
		return false
	case f.Severity == finding.Open:
		return !g.AllowOpen && g.safety(f.Rule)
	}
	return f.Severity >= g.FailOn
}

func (g Gate) safety(rule string) bool {
	if g.Safety != nil {
		return g.Safety(rule)
	}
	return Safety(rule)
}

// Safety reports whether the rule of a name is a safety rule.
func Safety(rule string) bool { return (&rules.Rule{Name: rule}).Safety() }

// Status is the exit status that the findings ask for: 1 where one fails at
// the gate, else 0.
func Status(findings []finding.Finding, g Gate) int {
	for _, f := range findings {
		if g.Fails(f) {
			return 1
		}
	}
	return 0
}
