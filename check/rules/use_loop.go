package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "use/loop",
	Severity: finding.Error,
	Summary:  "libraries that use each other in a loop",
	Why:      "A loop has no first file, so no meaning.",
	Needs:    "The libraries in use.",
	Since:    "0.1.0",
	Related:  []string{"use/missing"},
	Bad: `use "a.hame"
`,
	Good: `use "a.hame"
`,
	BadWith: map[string]string{
		"a.hame": "use \"b.hame\"\n",
		"b.hame": "use \"a.hame\"  # want use/loop\n",
	},
	GoodWith: map[string]string{
		"a.hame": "part lamp is load led { draws 27 W }\n",
	},
})
