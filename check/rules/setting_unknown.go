package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "setting/unknown",
	Severity: finding.Error,
	Summary:  "a setting that the kind does not take",
	Why:      "A mistyped setting would be a fact that is silently lost.",
	Needs:    "The table of kinds.",
	Since:    "0.1.0",
	Related:  []string{"kind/unknown", "setting/missing"},
	Bad: `part lamp is load led { drows 27 W }  # want setting/unknown
`,
	Good: `part lamp is load led { draws 27 W }
`,
})
