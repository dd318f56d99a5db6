package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "use/outside",
	Severity: finding.Error,
	Summary:  "a library outside the folder of the root file",
	Why:      "A harness that comes in a pull request must not read the rest of the disk, and must mean the same on every machine.",
	Needs:    "The path, links followed.",
	Since:    "0.1.0",
	Related:  []string{"use/missing"},
	Bad: `use "../lamps.hame"  # want use/outside
`,
	Good: `use "hame:lamps"
`,
})
