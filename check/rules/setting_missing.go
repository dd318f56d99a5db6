package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "setting/missing",
	Severity: finding.Error,
	Summary:  "a required setting that is not given",
	Why:      "Without it the device cannot be computed, and the rules that ask for it cannot be judged.",
	Needs:    "The table of kinds says which settings are required.",
	Since:    "0.1.0",
	Related:  []string{"setting/unknown"},
	Bad:      amended("draws 27 W; least 9 V; meant always }", "least 9 V; meant always }  # want setting/missing"),
	Good:     shed("", "", ""),
})
