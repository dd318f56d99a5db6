package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "allow/expired",
	Severity: finding.Warning,
	Summary:  "an allowance past its date",
	Why:      "The author said until when the finding was accepted. After that day it counts again.",
	Needs:    "The day of the check (`--on`, else today).",
	Since:    "0.1.0", Related: []string{"allow/unused"},
	Bad:  shed("", "allow wire/undersized on w2 because \"until the new cable comes\" until 2020-01-31  # want allow/expired\n", ""),
	Good: shed("", "", ""),
})
