package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "name/unknown",
	Severity: finding.Error,
	Summary:  "a name that is not declared, or is declared as something else",
	Why:      "A wire to a device that is not there is a wire that nobody checks.",
	Needs:    "All names of the file and of the libraries that it uses.",
	Since:    "0.1.0",
	Related:  []string{"name/duplicate", "terminal/unknown"},
	Bad: `part lamp is load led { draws 27 W; at shelff }  # want name/unknown
`,
	Good: `part lamp is load led { draws 27 W }
`,
})
