package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/lang/finding"
)

// charging is a 12 V machine with a 100 A alternator and loads of so many
// amperes in all, the alternator's own among them. The load is a constant current.
func charging(loadA float64, mode string) string {
	return fmt.Sprintf(`harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity 100 Ah; resistance 5 mohm }
supply alternator alt { output 100 A; idle 40 A; volts 14.4 V; already 10 A }
load motor winch { draws %.3f A; drives other }
wire a alt.pos -> main.pos 50 mm2 0.1 m
wire b alt.neg -> main.neg 50 mm2 0.1 m
wire c main.pos -> winch.pos 50 mm2 0.1 m
wire d winch.neg -> main.neg 50 mm2 0.1 m
mode driving { %s }
`, loadA-10, mode)
}

// TestDeficit: 80 % of the alternator's output is the limit (AC 43.13-1B 11-35,
// seen); at idle, of what it gives at idle; and a battery that gives half of its
// capacity within the mode is an error.
func TestDeficit(t *testing.T) {
	for name, c := range map[string]struct {
		loadA    float64
		mode     string
		severity string
	}{
		"below the limit":                    {79.9, "key on; engine running; for 1 h", ""},
		"above the limit":                    {80.5, "key on; engine running; for 1 h", "warning"},
		"at idle below":                      {31, "key on; engine idle; for 1 h", ""},
		"at idle above":                      {33, "key on; engine idle; for 1 h", "warning"},
		"the battery gives 20 A for an hour": {120, "key on; engine running; for 1 h", "warning"},
		"the battery gives 20 A for 3 h":     {120, "key on; engine running; for 3 h", "error"},
		"the battery gives without end":      {120, "key on; engine running", "error"},
		"the engine is off":                  {120, "key on; engine off", ""},
	} {
		t.Run(name, func(t *testing.T) {
			got := ""
			if f := find(t, charging(c.loadA, c.mode), "supply/deficit"); f != nil {
				got = f.Severity.String()
			}
			if got != c.severity {
				t.Errorf("severity %q, want %q", got, c.severity)
			}
		})
	}
}

// TestGeneratorLimit: of a generator of 60 A, 48 A may be asked lastingly (AC 43.13-1B
// 11-35, 80 %: rule read, product computed).
func TestGeneratorLimit(t *testing.T) {
	small := func(loadA float64) string {
		return strings.Replace(charging(loadA, "key on; engine running; for 1 h"), "output 100 A; idle 40 A", "output 60 A; idle 20 A", 1)
	}
	if f := find(t, small(47.9), "supply/deficit"); f != nil {
		t.Errorf("47.9 A: %s", f.Message)
	}
	if f := find(t, small(48.2), "supply/deficit"); f == nil || math.Abs(*f.Limit-48) > 1e-9 {
		t.Errorf("48.2 A: %+v", f)
	}
}

// TestLoadTable: the fixed loads of a light single-engine aircraft's load table come
// to 8.14 A (handbook figure 16-9, by inference; items read, sum computed).
func TestLoadTable(t *testing.T) {
	text := `harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity 100 Ah; resistance 5 mohm }
supply alternator alt { output 60 A; idle 20 A; volts 14.4 V }
wire a alt.pos -> main.pos 50 mm2 0.1 m
wire b alt.neg -> main.neg 50 mm2 0.1 m
mode flight { key on; engine running }
`
	for i, amps := range []float64{3.3, 3.0, 0.4, 0.6, 0.3, 0.2, 0.17, 0.17} {
		text += fmt.Sprintf("load motor x%[1]d { draws %[2]g A; drives other }\nwire p%[1]d main.pos -> x%[1]d.pos 2.5 mm2 0.1 m\nwire n%[1]d x%[1]d.neg -> main.neg 2.5 mm2 0.1 m\n", i, amps)
	}
	if got := *example(text, nil).Figures.Modes[0].SupplyA; math.Abs(got-8.14) > 0.001 {
		t.Errorf("%.4f A, want 8.14 A", got)
	}
}

// TestDrawnInAMonth: 50 mA take 36 Ah in 30 days (computed), which is half of 72 Ah.
func TestDrawnInAMonth(t *testing.T) {
	for capacity, want := range map[string]bool{"72.1 Ah": false, "71.9 Ah": true} {
		f := find(t, `harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity `+capacity+`; resistance 5 mohm; standby 50 mA }
mode parked { key off; for 720 h }
`, "supply/drain")
		if (f != nil) != want {
			t.Errorf("%s: %+v", capacity, f)
		}
		if f != nil && (f.Unit != "h" || math.Abs(*f.Measured-71.9/2/0.05) > 0.01) {
			t.Errorf("%s: half is gone in %g %s", capacity, *f.Measured, f.Unit)
		}
	}
}

// TestDeficitStatesHours: 100 Ah and 20 A leave 2.5 h to half (t = C x share / I,
// arithmetic).
func TestDeficitStatesHours(t *testing.T) {
	f := find(t, charging(120, "key on; engine running; for 3 h"), "supply/deficit")
	if f == nil || !strings.Contains(f.Message, "half of it is gone in 2.5") {
		t.Errorf("hours are not stated: %+v", f)
	}
}

// TestDeficitOfString: two 12 V batteries in series carry one current; counted
// once, 70 A of 100 A are within the limit, and 85 A are not.
func TestDeficitOfString(t *testing.T) {
	text := func(loadA float64) string {
		return fmt.Sprintf(`harness h { system 24 V; practice land; wire gxl }
supply battery low { capacity 100 Ah; resistance 5 mohm; volts 12 V }
supply battery top { capacity 100 Ah; resistance 5 mohm; volts 12 V }
supply alternator alt { output 100 A; idle 40 A; volts 28 V }
load motor winch { draws %.3f A; drives other }
wire a alt.pos -> top.pos 50 mm2 0.1 m
wire s top.neg -> low.pos 50 mm2 0.1 m
wire b alt.neg -> low.neg 50 mm2 0.1 m
wire c top.pos -> winch.pos 50 mm2 0.1 m
wire d winch.neg -> low.neg 50 mm2 0.1 m
mode driving { key on; engine running; for 1 h }
`, loadA)
	}
	if f := find(t, text(70), "supply/deficit"); f != nil {
		t.Errorf("70 A: %s", f.Message)
	}
	if f := find(t, text(85), "supply/deficit"); f == nil || math.Abs(*f.Measured-85) > 0.5 {
		t.Errorf("85 A: %+v", f)
	}
}

// TestDrain: half of C in 30 days is C/2/720 h = 0.694 mA per Ah, which the rule
// rounds to 0.7 (arithmetic); a mode's own time counts beside it.
func TestDrain(t *testing.T) {
	text := func(standby, more string) string {
		return `harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity 100 Ah; resistance 5 mohm; standby ` + standby + ` }
load bulb lamp { draws 21 W; meant always }
switch toggle s1 { rating 10 A }
wire a main.pos -> s1.in 2.5 mm2 0.1 m
wire b s1.out -> lamp.pos 2.5 mm2 0.1 m
wire d lamp.neg -> main.neg 2.5 mm2 0.1 m
` + more
	}
	for name, c := range map[string]struct {
		text string
		want bool
	}{
		"at the limit":                      {text("70 mA", "mode parked { key off }"), false},
		"above the limit":                   {text("71 mA", "mode parked { key off }"), true},
		"above the limit in a short mode":   {text("71 mA", "mode parked { key off; for 1 h }"), true},
		"a lamp in use for an hour":         {text("10 mA", "mode lit { key off; closed s1; for 1 h }"), false},
		"a lamp forgotten over the weekend": {text("10 mA", "mode lit { key off; closed s1; for 60 h }"), true},
		"a lamp on for as long as it likes": {text("10 mA", "mode lit { key off; closed s1 }"), true},
		"with the key on nothing is parked": {text("71 mA", "mode lit { key on; closed s1 }"), false},
		"half gone before the mode is over": {text("10 mA", "mode lit { key off; closed s1; for 31 h }"), true},
		"half left when the mode is over":   {text("10 mA", "mode lit { key off; closed s1; for 20 h }"), false},
	} {
		t.Run(name, func(t *testing.T) {
			f := find(t, c.text, "supply/drain")
			if (f != nil) != c.want {
				t.Errorf("found %+v, want %v", f, c.want)
			}
			if f != nil && f.Severity != finding.Warning {
				t.Errorf("severity %s", f.Severity)
			}
		})
	}
}
