package check_test

import (
	"fmt"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// gradeOf is the gravest severity of a rule over a text's findings; false where
// it says nothing.
func gradeOf(text, rule string) (finding.Severity, bool) {
	grade, found := finding.Open, false
	for _, f := range check.File(source.New("t.hame", text), check.Options{}).Findings {
		if f.Rule == rule {
			grade, found = max(grade, f.Severity), true
		}
	}
	return grade, found
}

// TestBreakingGrades: from 100 to 200 % of a 32 V device's breaking capacity of
// 1 000 A (ISO 8820-3, seen) is a warning on 12 V lead-acid, above it and on 24 V
// an error. The battery alone limits the current: 12.65 V rested (BCI table A).
func TestBreakingGrades(t *testing.T) {
	for _, c := range []struct {
		systemV, mohm float64
		chemistry     string
		want          finding.Severity
		found         bool
	}{
		{12, 12.5, "lead", 0, false},
		{12, 8.5, "lead", finding.Warning, true},
		{12, 3.5, "lead", finding.Error, true},
		{24, 17, "lead", finding.Error, true},
		{12, 8.5, "lithium", finding.Error, true},
	} {
		text := fmt.Sprintf(`harness b { system %g V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 90 Ah; resistance %g mohm; chemistry %s; post M8; covered }
protection fuse f1  { at shelf; rating 40 A; family maxi; covered }
load heater pad     { at shelf; draws 20 A; meant always }
wire w1 main.pos -> f1.in    35 mm2 red   0.05 m
wire w2 f1.out   -> pad.pos  10 mm2 red   1 m
wire w3 pad.neg  -> main.neg 35 mm2 black 0.1 m
mode warm { for 30 min }
`, c.systemV, c.mohm, c.chemistry)
		if got, found := gradeOf(text, "protection/breaking"); found != c.found || got != c.want {
			t.Errorf("%g V %s behind %g mohm: %v %t, want %v %t", c.systemV, c.chemistry, c.mohm, got, found, c.want, c.found)
		}
	}
}
