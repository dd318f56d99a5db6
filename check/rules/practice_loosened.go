package rules

import (
	"fmt"

	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "practice/loosened",
	Severity: finding.Warning,
	Summary:  "a limit set weaker than the practice that the harness names",
	Why:      "A harness may hold itself to more than its practice, not to less under the practice's name.",
	Needs:    "The harness's practice block.",
	Since:    "0.1.0",
	Bad:      shed("", "", " { distance bare 300 mm }  # want practice/loosened"),
	Good:     shed("", "", " { distance bare 150 mm }"),
	Check:    checkLoosened,
})

func checkLoosened(c *Context) {
	for _, l := range c.Practice.Loosened(c.Harness) {
		set, limit := l.Set, l.Limit.Value
		if l.Limit.Unit == "AWG" {
			limit = l.Limit.AreaMM2()
		}
		c.Report(finding.Finding{
			At: finding.Place{File: c.Harness.Origin.File, Span: l.Args.Key.Span}, Subject: c.Harness.Name,
			Message:  fmt.Sprintf("`%s` is set to %s, weaker than practice %s: %s %s", l.Limit.Name, number(set), c.Practice.Name, number(limit), l.Limit.Unit),
			Measured: &set, Limit: &limit, Unit: l.Limit.Unit, Source: source(l.Limit.Source),
		})
	}
}
