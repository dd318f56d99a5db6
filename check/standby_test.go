package check_test

import (
	"testing"

	"hame/check"
	"hame/lang/source"
)

// TestStandbyIsNotTheWorst: a load that draws its standby with the key off is
// still judged with the key on, where nothing else hangs on the key (language:
// worst case, every key and engine).
func TestStandbyIsNotTheWorst(t *testing.T) {
	run := check.File(source.New("t.hame", `harness s { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 90 Ah; resistance 15 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 40 A; family maxi; covered }
load module box     { at shelf; draws 30 A; least 9 V; standby 5 mA }
wire w1 main.pos -> f1.in    6 mm2 red   0.15 m
wire w2 f1.out   -> box.pos  1 mm2 red   1 m
wire w3 box.neg  -> main.neg 6 mm2 black 1 m
mode parked { for 2 h }
`), check.Options{})
	for _, w := range run.Figures.Wires {
		if w.WorstA == nil || *w.WorstA < 29 {
			t.Errorf("%s carries %v A at worst", w.Wire.Name, w.WorstA)
		}
	}
	found := map[string]bool{}
	for _, f := range run.Findings {
		found[f.Rule+" "+f.Subject] = true
	}
	if !found["wire/undersized w2"] {
		t.Errorf("w2 is not undersized: %v", texts(run))
	}
}
