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
	Bad: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 11 A; covered }  # want value/range
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
