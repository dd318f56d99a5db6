package check_test

import (
	"slices"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// lampRun is a lamp at the far end of one run. The keys that are not given keep
// their usual values.
func lampRun(given map[string]string) string {
	text := `harness run { system 12 V; practice PRACTICE; wire gxl; slack 100 mm }
zone  yard { AMBIENT }
place shelf, gate in yard
bundle b1 shelf -> gate 1.2 m { BUNDLE }
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 3 A; covered }
load led lamp       { at gate; draws 6 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m { cover braid }
wire w2 f1.out   -> lamp.pos GAUGE
wire w3 lamp.neg -> main.neg 2.5 mm2 black { OWN }
mode lit { for 1 h }
`
	for _, k := range [][2]string{
		{"PRACTICE", "land"},
		{"AMBIENT", "ambient 0..40 degC"},
		{"BUNDLE", "cover loom_pa; clamp every 400 mm"},
		{"GAUGE", "2.5 mm2 red"},
		{"OWN", "label \"back\""},
	} {
		value, ok := given[k[0]]
		if !ok {
			value = k[1]
		}
		text = strings.ReplaceAll(text, k[0], value)
	}
	return text
}

// TestLayoutLimits tries the rules of bundles and of a wire's make at their
// limits: just at one is allowed.
func TestLayoutLimits(t *testing.T) {
	for _, c := range []struct {
		rule, key, holds, broken string
	}{
		// ISO 10133 7.3 and, by the harness's own hand, less.
		{"bundle/clamps", "BUNDLE", "cover loom_pa; clamp every 450 mm", "cover loom_pa; clamp every 451 mm"},
		{"bundle/hot-surface", "BUNDLE", "cover loom_pa; clamp every 400 mm; clears hot by 100 mm", "cover loom_pa; clamp every 400 mm; clears hot by 99 mm"},
		{"bundle/hot-surface", "BUNDLE", "cover loom_pa; clamp every 400 mm; clears moving by 25 mm", "cover loom_pa; clamp every 400 mm; clears moving by 20 mm"},
		// AC 43.13-1B 11-96 w: two inches, here 50 mm.
		{"bundle/hot-surface", "BUNDLE", "cover loom_pa; clamp every 400 mm; clears fuel by 50 mm", "cover loom_pa; clamp every 400 mm; clears fuel by 45 mm"},
		{"bundle/cover-heat", "BUNDLE", "cover loom_pe; clamp every 400 mm", "cover loom_pe rated 35 degC; clamp every 400 mm"},
		{"bundle/cover-heat", "OWN", "cover tape", "cover conduit rated 39 degC"},
		// Two wires of 2.5 mm2 gxl side by side: 2 x (1.15 x 1.784 mm + 2 x 0.66 mm) = 6.74 mm.
		{"bundle/fill", "BUNDLE", "cover loom_pa 7.5 mm; clamp every 400 mm", "cover loom_pa 6 mm; clamp every 400 mm"},
		{"bundle/fill", "BUNDLE", "cover loom_pa; clamp every 400 mm; through bulkhead grommet 8.5 mm", "cover loom_pa; clamp every 400 mm; through bulkhead grommet 6 mm"},
		{"bundle/fill", "BUNDLE", "cover braid; clamp every 400 mm", "cover braid 5 mm; clamp every 400 mm"},
		{"bundle/bare", "BUNDLE", "cover loom_pa; clamp every 400 mm; behind panel guard", "cover loom_pa; clamp every 400 mm; behind panel"},
		{"bundle/bare", "AMBIENT", "ambient 0..40 degC; exposure sun, oil, abrasion", ""},
		{"wire/thin", "GAUGE", "0.75 mm2 red", "0.5 mm2 red"},
		{"wire/thin", "GAUGE", "18 AWG red", "20 AWG red"},
		{"wire/insulation", "GAUGE", "2.5 mm2 gpt red", ""},
		{"wire/insulation", "AMBIENT", "ambient 0..125 degC", "ambient 0..126 degC"},
		// Sun adds 20 K.
		{"wire/insulation", "AMBIENT", "ambient 0..105 degC; exposure sun", "ambient 0..106 degC; exposure sun"},
		{"wire/colour", "GAUGE", "2.5 mm2 red/black", "2.5 mm2 black/red"},
		{"wire/colour", "GAUGE", "2.5 mm2", "2.5 mm2 black"},
	} {
		if holds := raised(lampRun(map[string]string{c.key: c.holds}), c.rule); holds != nil {
			t.Errorf("%s: %q: %s", c.rule, c.holds, holds[0].Message)
		}
		if c.broken != "" && raised(lampRun(map[string]string{c.key: c.broken}), c.rule) == nil {
			t.Errorf("%s: %q is not found", c.rule, c.broken)
		}
	}
}

// raised are the findings of one rule; nil for none.
func raised(text, rule string) []finding.Finding {
	var list []finding.Finding
	for _, f := range check.File(source.New("run.hame", text), check.Options{}).Findings {
		if f.Rule == rule {
			list = append(list, f)
		}
	}
	return list
}

// The other practices: 33 CFR 183.425(e), a single 18 AWG run by itself is too
// thin, 16 AWG is not; ABYC E-11's 18 inches; AC 43.13-1B 11-96 a, 24 inches.
func TestLayoutOfOtherPractices(t *testing.T) {
	bare := "clamp every 400 mm"
	for _, c := range []struct {
		rule, practice, bundle, gauge string
		broken                        bool
	}{
		{"wire/thin", "cfr183", bare, "18 AWG red", true},
		{"wire/thin", "cfr183", bare, "16 AWG red", false},
		{"wire/thin", "cfr183", "cover loom_pa", "18 AWG red", false},
		{"wire/thin", "cfr183", "cover loom_pa", "20 AWG red", true},
		{"wire/thin", "ac43", bare, "22 AWG red", false},
		{"wire/thin", "ac43", bare, "24 AWG red", true},
		{"wire/thin", "land", bare, "0.75 mm2 red", true},
		{"wire/thin", "land { gauge 2 mm2 }", bare, "1.5 mm2 red", true},
		{"bundle/clamps", "cfr183", "clamp every 18 in", "2.5 mm2 red", true},
		{"bundle/clamps", "cfr183", "clamp every 457 mm", "2.5 mm2 red", false},
		{"bundle/clamps", "ac43", "clamp every 610 mm", "2.5 mm2 red", false},
		{"bundle/clamps", "ac43", "clamp every 30 in", "2.5 mm2 red", true},
		{"bundle/clamps", "land { clamps 300 mm }", "clamp every 310 mm", "2.5 mm2 red", true},
		{"bundle/hot-surface", "land { clear hot 150 mm }", "clears hot by 140 mm", "2.5 mm2 red", true},
		{"wire/colour", "land { return red }", bare, "2.5 mm2 red", true},
	} {
		got := raised(lampRun(map[string]string{"PRACTICE": c.practice, "BUNDLE": c.bundle, "GAUGE": c.gauge}), c.rule)
		if (got != nil) != c.broken {
			t.Errorf("%s, %s, %s, %s: %v", c.practice, c.rule, c.bundle, c.gauge, got)
		}
	}
}

// What is not declared is open and names the fact.
func TestLayoutOpen(t *testing.T) {
	for _, c := range []struct{ rule, key, value, name, setting string }{
		{"bundle/clamps", "BUNDLE", "cover loom_pa", "b1", "clamp"},
		{"bundle/cover-heat", "BUNDLE", "cover conduit; clamp every 400 mm", "b1", "rated"},
		{"bundle/cover-heat", "AMBIENT", "", "yard", "ambient"},
		{"wire/insulation", "AMBIENT", "", "yard", "ambient"},
		{"wire/hot", "AMBIENT", "", "yard", "ambient"},
		{"bundle/fill", "GAUGE", "auto red", "", ""}, // no bore is said: nothing hangs on it
		{"wire/thin", "GAUGE", "auto red", "w2", "gauge"},
		{"wire/hot", "GAUGE", "auto red", "w2", "gauge"},
		{"wire/drop", "GAUGE", "auto red", "w2", "gauge"},
	} {
		found := raised(lampRun(map[string]string{c.key: c.value}), c.rule)
		want := finding.Need{Name: c.name, Setting: c.setting}
		switch {
		case c.name == "":
			if found != nil {
				t.Errorf("%s: %v", c.rule, found)
			}
		case len(found) != 1 || found[0].Severity != finding.Open || !slices.Equal(found[0].Needs, []finding.Need{want}):
			t.Errorf("%s with %s %q: %+v", c.rule, c.key, c.value, found)
		}
	}
}

// The zone changes along the run: something must say what lies between.
func TestChangingZone(t *testing.T) {
	text := strings.Replace(lampRun(nil), "place shelf, gate in yard", "zone shed { ambient 0..30 degC }\nplace shelf in shed\nplace gate in yard", 1)
	if got := raised(text, "bundle/bare"); len(got) != 1 || got[0].Severity != finding.Open || got[0].Needs[0].Setting != "through" {
		t.Errorf("%+v", got)
	}
	said := strings.Replace(text, "clamp every 400 mm", "clamp every 400 mm; through none", 1)
	if got := raised(said, "bundle/bare"); got != nil {
		t.Errorf("%+v", got)
	}
}

// Fixes put right what they are for, and raise nothing else.
func TestLayoutFixes(t *testing.T) {
	for _, c := range []struct{ rule, key, value string }{
		{"bundle/clamps", "BUNDLE", "cover loom_pa; clamp every 800 mm"},
		{"bundle/fill", "BUNDLE", "cover loom_pa 6 mm; clamp every 400 mm; through bulkhead grommet 6 mm"},
		{"bundle/cover-heat", "AMBIENT", "ambient 0..110 degC"},
		{"wire/thin", "GAUGE", "0.5 mm2 red"},
	} {
		given := map[string]string{c.key: c.value}
		if c.rule == "bundle/cover-heat" {
			given["BUNDLE"] = "cover loom_pe; clamp every 400 mm"
		}
		text := lampRun(given)
		found := raised(text, c.rule)
		if len(found) != 1 || found[0].Fix == nil {
			t.Errorf("%s: %+v", c.rule, found)
			continue
		}
		for _, f := range check.File(source.New("run.hame", mend(text, found[0].Fix)), check.Options{}).Findings {
			t.Errorf("%s mended: %s [%s]", c.rule, f.Message, f.Rule)
		}
	}
}
