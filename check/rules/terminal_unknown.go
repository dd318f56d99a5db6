package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "terminal/unknown",
	Severity: finding.Error,
	Summary:  "a terminal that the device does not have",
	Why:      "A wire on a terminal that is not there lands on another one on the bench.",
	Needs:    "The kind's terminals, as its settings make them (ways, poles, throws, inputs, form).",
	Since:    "0.1.0",
	Related:  []string{"name/unknown"},
	Bad:      amended("lamp.pos 2.5 mm2 red   1 m", "lamp.plus 2.5 mm2 red  1 m  # want terminal/unknown"),
	Good:     shed("", "", ""),
})
