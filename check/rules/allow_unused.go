package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "allow/unused",
	Severity: finding.Warning,
	Summary:  "an allowance that matches no finding",
	Why:      "An allowance for nothing lies in wait: it will hide the next finding of its kind, which nobody has accepted.",
	Needs:    "Nothing.",
	Since:    "0.1.0", Related: []string{"allow/expired"},
	Bad:  shed("", "allow wire/undersized on w2 because \"short run\"  # want allow/unused\n", ""),
	Good: shed("", "", ""),
})
