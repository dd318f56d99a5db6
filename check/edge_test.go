package check_test

import (
	"strings"
	"testing"

	"hame/check/rules"
	"hame/lang/finding"
)

// oneGrade says how grave each rule's bad example is; rules that grade by the
// figure are tried where their limits are.
var oneGrade = map[finding.Severity]string{
	finding.Error: `text/syntax name/unknown name/duplicate kind/unknown setting/unknown setting/missing setting/repeated
unit/wrong value/range terminal/unknown use/missing use/outside use/loop graph/live-stub graph/no-feed graph/no-return
graph/dead-short graph/reversed graph/back-feed graph/unsettled graph/unreachable wire/undersized protection/missing
protection/far protection/slow protection/fitted tap/forbidden tap/unprotected ground/overloaded connector/live-male
connector/overloaded connector/gauge terminal/stud bundle/cover-heat bundle/fill bundle/hot-surface
load/starved load/overvolted supply/cutoff-bypassed require/broken`,
	finding.Warning: `graph/loose-end graph/parallel graph/return-switched wire/thin protection/stall
protection/order protection/inrush switch/no-suppression switch/spare-live ground/crowded ground/offset
device/unsealed terminal/uncovered bundle/clamps supply/drain supply/load-dump supply/unattended supply/crank allow/unused
allow/expired practice/loosened`,
	finding.Advice: `name/unused wire/colour`,
}

// TestGrades: each rule's bad example is as grave as the rule is.
func TestGrades(t *testing.T) {
	for want, names := range oneGrade {
		for _, name := range strings.Fields(names) {
			r := rules.Find(name)
			if r == nil {
				t.Errorf("no rule %s", name)
				continue
			}
			seen := 0
			for _, f := range example(r.Bad, r.BadWith).Findings {
				if f.Rule != name {
					continue
				}
				seen++
				if f.Severity != want {
					t.Errorf("%s: %s, want %s", name, f.Severity, want)
				}
			}
			if seen == 0 || r.Severity != want {
				t.Errorf("%s: %d findings, and the rule is of %s, want %s", name, seen, r.Severity, want)
			}
		}
	}
}

// A shroud keeps fingers off live pins, and so softens what they are (common
// practice, no source).
func TestShroudedPins(t *testing.T) {
	text := rules.Find("connector/live-male").Bad
	subject := only(t, text, "connector/live-male").Subject
	shrouded := strings.Replace(text, "connector "+subject+" {", "connector "+subject+" { shrouded;", 1)
	if got := ruled(t, shrouded, "connector/live-male", subject); got != "warning" {
		t.Errorf("shrouded pins: %q, want a warning\n%s", got, shrouded)
	}
}

// only gives a rule's single finding.
func only(t *testing.T, text, rule string) finding.Finding {
	t.Helper()
	for _, f := range example(text, nil).Findings {
		if f.Rule == rule {
			return f
		}
	}
	t.Fatalf("no %s", rule)
	return finding.Finding{}
}

// spliced is a battery that feeds two lamps of 3 A each through a splice.
func spliced(limit string) string {
	return `harness spliced { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
join splice s1      { at shelf; limit ` + limit + ` }
load heater pad1    { at shelf; draws 3 A at 12 V; least 9 V; meant always }
load heater pad2    { at shelf; draws 3 A at 12 V; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> s1       2.5 mm2 red   0.5 m
wire w3 s1       -> pad1.pos 2.5 mm2 red   1 m
wire w4 s1       -> pad2.pos 2.5 mm2 red   1 m
wire w5 pad1.neg -> main.neg 2.5 mm2 black 1 m
wire w6 pad2.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`
}

// Two heaters of 4 ohm on a full battery draw 6.3 to 7 A (Ohm's law): what goes
// through a splice is what comes in, not in and out together.
func TestSpliceLimit(t *testing.T) {
	for limit, want := range map[string]string{"5 A": "error", "6.2 A": "error", "8 A": "", "10 A": ""} {
		if got := ruled(t, spliced(limit), "connector/overloaded", "s1"); got != want {
			t.Errorf("limit %s: %q, want %q", limit, got, want)
		}
	}
}

// 27 W of 12 to 13 V are 2.1 to 2.25 A; half of 70 Ah lasts 15.5 to 16.9 h
// (t = C/2/I).
func TestHalfOfTheBattery(t *testing.T) {
	for hours, want := range map[string]string{"15 h": "", "17.5 h": "warning"} {
		text := strings.Replace(spliced("10 A"), "mode lit { for 1 h }", "mode lit { key off; for "+hours+" }", 1)
		for _, pad := range []string{"pad1", "pad2"} {
			text = strings.Replace(text, "load heater "+pad+"    { at shelf; draws 3 A at 12 V", "load led "+pad+"    { at shelf; draws 13.5 W", 1)
		}
		if got := ruled(t, text, "supply/drain", "main"); got != want {
			t.Errorf("%s: %q, want %q", hours, got, want)
		}
	}
}

// A wire with no place at either end has no ambient, and so no ampacity: the
// place is asked for, never passed over.
func TestMissingPlaceIsAskedFor(t *testing.T) {
	text := strings.NewReplacer(
		"join splice s1      { at shelf; ", "join splice s1      { ",
		"load heater pad1    { at shelf; ", "load heater pad1    { ",
	).Replace(spliced("10 A"))
	run, asked := example(text, nil), false
	for _, f := range run.Findings {
		for _, n := range f.Needs {
			asked = asked || f.Severity == finding.Open && n.Name == "s1" && n.Setting == "at"
		}
	}
	if !asked {
		t.Errorf("`at` of s1 is not asked for: %v", texts(run))
	}
}
