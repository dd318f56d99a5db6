package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "kind/unknown",
	Severity: finding.Error,
	Summary:  "a kind that its family does not have, and no part either",
	Why:      "What a device is decides its terminals, its settings and every figure of it.",
	Needs:    "The table of kinds, and the parts of the libraries in use.",
	Since:    "0.1.0",
	Related:  []string{"setting/unknown"},
	Bad: `part lamp is load ledd { draws 27 W }  # want kind/unknown
`,
	Good: `part lamp is load led { draws 27 W }
`,
})
