package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "setting/repeated",
	Severity: finding.Error,
	Summary:  "a setting that is given twice",
	Why:      "Two values for one thing: whichever counts, the other is wrong.",
	Needs:    "A repeatable setting (way, input, throw, clears, a practice limit) is repeated when its first value is.",
	Since:    "0.1.0",
	Related:  []string{"name/duplicate"},
	Bad: `part lamp is load led {
    draws 27 W
    draws 18 W  # want setting/repeated
}
`,
	Good: `part lamp is load led {
    draws 27 W
}
`,
})
