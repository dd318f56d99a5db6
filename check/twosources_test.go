package check_test

import (
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// twoBatteries is a lamp between two batteries, side by side.
const twoBatteries = `harness pair { system 12 V; practice land; wire gxl }
zone dry { ambient 0..40 degC }
place shelf in dry
supply battery b1 { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
supply battery b2 { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
load led lamp { at shelf; draws 27 W; least 9 V; meant always }
wire n1 lamp.neg -> b1.neg 2.5 mm2 black 1 m
wire n2 b2.neg -> b1.neg 10 mm2 black 2 m
`

func findings(text, rule string) []finding.Finding {
	var list []finding.Finding
	for _, f := range check.File(source.New("t.hame", text), check.Options{}).Findings {
		if f.Rule == rule {
			list = append(list, f)
		}
	}
	return list
}

// The source that is named is the one that the length is from.
func TestMissingNamesItsSource(t *testing.T) {
	list := findings(twoBatteries+"wire w1 b1.pos -> lamp.pos 2.5 mm2 red 1 m\nwire w2 b2.pos -> b1.pos 10 mm2 red 2 m\n", "protection/missing")
	if len(list) == 0 || list[0].Subject != "w1" || !strings.Contains(list[0].Message, "`b1` feeds it") || *list[0].Measured != 1 {
		t.Errorf("%+v", list)
	}
}

// Two equal fuses, one at each of two batteries, are not in series for any
// fault: each carries its own battery's current.
func TestFusesOfTwoBatteriesAreNotInOrder(t *testing.T) {
	text := twoBatteries + `protection fuse f1 { at shelf; rating 30 A; covered }
protection fuse f2 { at shelf; rating 30 A; covered }
join stud s { at shelf; size M6; holds 4; covered }
wire w1 b1.pos -> f1.in 6 mm2 red 0.1 m
wire w2 b2.pos -> f2.in 6 mm2 red 0.1 m
wire w3 f1.out -> s 6 mm2 red 1 m
wire w4 f2.out -> s 6 mm2 red 1 m
wire w5 s -> lamp.pos 2.5 mm2 red 1 m
`
	if list := findings(text, "protection/order"); len(list) > 0 {
		t.Error(list[0].Message)
	}
}
