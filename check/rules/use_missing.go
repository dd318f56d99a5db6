package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "use/missing",
	Severity: finding.Error,
	Summary:  "a library that is not there",
	Why:      "The parts that it would bring are missing from every figure.",
	Needs:    "The files in the folder of the root file, and the libraries inside the program.",
	Since:    "0.1.0",
	Related:  []string{"use/outside", "use/loop"},
	Bad: `use "lamps.hame"  # want use/missing
`,
	Good: `use "hame:lamps"
`,
})
