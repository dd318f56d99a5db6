package rules

import "hame/lang/finding"

var _ = register(&Rule{
	Name:     "name/unused",
	Severity: finding.Advice,
	Summary:  "a part, place, zone, bundle or mode that nothing uses",
	Why:      "It is a leftover, or what should use it was mistyped.",
	Needs:    "Uses by name. The parts of libraries are there for others and are not asked for; a mode counts as unused where it sets nothing and no requirement names it.",
	Since:    "0.1.0",
	Related:  []string{"name/unknown"},
	Bad:      shed("\nplace attic in dry  # want name/unused", "", ""),
	Good:     shed("", "", ""),
})
