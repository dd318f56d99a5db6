package network_test

import (
	"testing"

	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// TestOutlet: an outlet draws what it expects, else what it says to draw, else
// its rating (language: settings of the kinds).
func TestOutlet(t *testing.T) {
	for settings, want := range map[string]float64{
		"rating 12 A":                         12,
		"rating 12 A; expects 8 A":            8,
		"rating 12 A; draws 3 A":              3,
		"rating 12 A; draws 36 W":             3,
		"rating 12 A; draws 3 A; expects 8 A": 8,
	} {
		r := harness.Bind(syntax.Parse(source.New("t.hame", "harness h { system 12 V }\nload outlet o { "+settings+" }\n")), harness.Options{})
		for _, e := range network.Build(r.Harness).Elements {
			if e.Load != nil && e.Load.Amps != want {
				t.Errorf("%s draws %g A, want %g A", settings, e.Load.Amps, want)
			}
		}
		if len(r.Findings) > 0 {
			t.Errorf("%s: %s", settings, r.Findings[0].Message)
		}
	}
}
