package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "name/duplicate",
	Severity: finding.Error,
	Summary:  "a name that is declared twice",
	Why:      "A name means one thing: devices, wires, bundles, places, zones, modes and parts share one name space, so that a label on the machine points to one line.",
	Needs:    "All names of the file and of the libraries that it uses.",
	Since:    "0.1.0",
	Related:  []string{"name/unknown"},
	Bad: `part lamp is load led  { draws 27 W }
part lamp is load bulb { draws 21 W }  # want name/duplicate
`,
	Good: `part lamp  is load led  { draws 27 W }
part lamp2 is load bulb { draws 21 W }
`,
})
