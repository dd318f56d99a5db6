package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "value/range",
	Severity: finding.Error,
	Summary:  "a value of the right unit that cannot be: a gauge that is not made, a negative length, a fuse of a rating that its family is not made in",
	Why:      "What cannot be bought cannot be built.",
	Needs:    "The ratings that a family of fuses is made in (ISO 8820 and others, lists from memory), the sizes of IEC 60228, ISO 6722 and AWG, and the ranges in the table of kinds.",
	Since:    "0.1.0",
	Related:  []string{"unit/wrong"},
	Bad:      amended("rating 10 A; covered }", "rating 11 A; covered }  # want value/range"),
	Good:     shed("", "", ""),
})
