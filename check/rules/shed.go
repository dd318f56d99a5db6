package rules

import "strings"

// shed is the harness that most examples are variations of: a lamp on a fused
// feed from a battery. Its arguments are appended to the places, to the end,
// and to the practice.
func shed(places, more, practice string) string {
	return `harness shed {
    system   12 V
    practice land` + practice + `
    wire     gxl
    slack    100 mm
}
zone  dry   { ambient 0..40 degC }
place shelf in dry` + places + `
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
` + more
}

// amended is the shed with one text in the place of another.
func amended(old, new string) string {
	return strings.Replace(shed("", "", ""), old, new, 1)
}
