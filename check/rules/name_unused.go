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
	Bad: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
place attic in dry  # want name/unused
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`,
	Good: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`,
})
