package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "text/syntax",
	Severity: finding.Error,
	Summary:  "a statement cannot be read",
	Why:      "What cannot be read is not checked, and what is not checked may be wrong. The rest of the file is still read.",
	Needs:    "Nothing: it is judged from the text alone.",
	Since:    "0.1.0",
	Related:  []string{"setting/unknown"},
	Bad: `part lamp is load led { draws 27 W }
part is load led { draws 27 W }  # want text/syntax
`,
	Good: `part lamp is load led { draws 27 W }
`,
})
