package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "unit/wrong",
	Severity: finding.Error,
	Summary:  "a number with another unit than its setting wants, or with none",
	Why:      "A current where a voltage belongs is a slip that turns every figure after it wrong.",
	Needs:    "The table of kinds says which unit a setting wants.",
	Since:    "0.1.0",
	Related:  []string{"value/range"},
	Bad: `part feed is protection fuse { rating 30 V }  # want unit/wrong
`,
	Good: `part feed is protection fuse { rating 30 A }
`,
})
