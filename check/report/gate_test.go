package report_test

import (
	"testing"

	"hame/check/report"
	"hame/lang/finding"
)

func TestStatus(t *testing.T) {
	one := func(rule string, s finding.Severity) []finding.Finding {
		return []finding.Finding{{Rule: rule, Severity: s}}
	}
	allowed := one("wire/hot", finding.Error)
	allowed[0].Allowed = &finding.Allowed{Because: "it is"}
	for name, c := range map[string]struct {
		list []finding.Finding
		gate report.Gate
		want int
	}{
		"none":                   {nil, report.Gate{FailOn: finding.Advice}, 0},
		"error at error":         {one("wire/hot", finding.Error), report.Gate{FailOn: finding.Error}, 1},
		"warning at error":       {one("wire/hot", finding.Warning), report.Gate{FailOn: finding.Error}, 0},
		"warning at warning":     {one("wire/hot", finding.Warning), report.Gate{FailOn: finding.Warning}, 1},
		"advice at warning":      {one("wire/hot", finding.Advice), report.Gate{FailOn: finding.Warning}, 0},
		"advice at advice":       {one("wire/hot", finding.Advice), report.Gate{FailOn: finding.Advice}, 1},
		"error at never":         {one("wire/hot", finding.Error), report.Gate{FailOn: report.Never}, 0},
		"open, no safety rule":   {one("wire/hot", finding.Open), report.Gate{FailOn: finding.Advice}, 0},
		"open protection":        {one("protection/far", finding.Open), report.Gate{FailOn: finding.Error}, 1},
		"open ground":            {one("ground/sneak", finding.Open), report.Gate{FailOn: finding.Error}, 1},
		"open tap":               {one("tap/forbidden", finding.Open), report.Gate{FailOn: finding.Error}, 1},
		"open live terminal":     {one("terminal/uncovered", finding.Open), report.Gate{FailOn: finding.Error}, 1},
		"open terminal, no live": {one("terminal/stud", finding.Open), report.Gate{FailOn: finding.Error}, 0},
		"open, allowed by flag":  {one("protection/far", finding.Open), report.Gate{FailOn: finding.Error, AllowOpen: true}, 0},
		"open at never":          {one("protection/far", finding.Open), report.Gate{FailOn: report.Never}, 1},
		"open at never, allowed": {one("protection/far", finding.Open), report.Gate{FailOn: report.Never, AllowOpen: true}, 0},
		"other open at never":    {one("wire/hot", finding.Open), report.Gate{FailOn: report.Never}, 0},
		"allowed":                {allowed, report.Gate{FailOn: finding.Advice}, 0},
		"own safety":             {one("wire/hot", finding.Open), report.Gate{FailOn: finding.Error, Safety: func(string) bool { return true }}, 1},
	} {
		if got := report.Status(c.list, c.gate); got != c.want {
			t.Errorf("%s: status %d, want %d", name, got, c.want)
		}
	}
}
