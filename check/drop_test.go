package check_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/tables"
)

// twoWire is a load of steady amperes at the end of a two-wire circuit of a
// given whole length, out and back, straight on its battery.
func twoWire(systemV, ambientC, amps, feet float64, gauge, practice, load, mode string) string {
	return fmt.Sprintf(`harness circuit { system %g V; practice %s; wire m22759-16 }
zone  room { ambient %g..%g degC }
place here in room
supply battery main { at here; volts %g V; capacity 200 Ah; resistance 5 mohm; post M8; covered }
load motor user { at here; draws %g A at %g V; %s meant always }
wire out  main.pos -> user.pos %s red   %g ft
wire back user.neg -> main.neg %s black %g ft
mode on { %s }
`, systemV, practice, ambientC, ambientC, systemV, amps, systemV, load, gauge, feet/2, gauge, feet/2, mode)
}

// drops are the findings of wire/drop in a text.
func drops(t *testing.T, text string) []finding.Finding {
	t.Helper()
	run := check.File(source.New("drop.hame", text), check.Options{})
	var list []finding.Finding
	for _, f := range run.Findings {
		switch {
		case f.Rule == "wire/drop":
			list = append(list, f)
		case strings.HasPrefix(f.Rule, "text/"), strings.HasPrefix(f.Rule, "name/"), strings.HasPrefix(f.Rule, "value/"):
			t.Fatalf("%s: %s", f.Rule, f.Message)
		}
	}
	return list
}

// The wire that handbooks choose passes and the next thinner one does not.
// Theirs is copper at 20 degC: the ambient here leaves room for its own heat.
func TestHandbookChoices(t *testing.T) {
	const ambientC = 10
	for _, c := range []struct {
		what          string
		systemV       float64
		amps, feet    float64
		practice      string
		load, mode    string
		passes, fails string
	}{
		// AC 43.13-1B CHG 1, 11-67 example 1 and figure 11-2: 0.70 V in No. 8, 1.26 V in No. 10.
		{"28 V, 50 ft, 20 A, 1 V continuous", 24, 20, 50, "ac43", "", "for 1 h", "8 AWG", "10 AWG"},
		// The same, table 11-7 row 1: 0.942 V in No. 6.
		{"28 V, 107 ft, 20 A, 1 V continuous", 24, 20, 107, "ac43", "", "for 1 h", "6 AWG", "8 AWG"},
		// Table 11-6, the intermittent column (from memory): 2 V, so that half the copper does.
		{"28 V, 100 ft, 10 A, 2 V intermittent", 24, 10, 100, "ac43", "", "for 2 min", "10 AWG", "14 AWG"},
		// Table 11-6 at 14 V: half of that. 0.70 V in No. 8 is too much, 0.44 V in No. 6 is not.
		{"14 V, 50 ft, 20 A, 0.5 V continuous", 12, 20, 50, "ac43", "", "for 1 h", "6 AWG", "8 AWG"},
		// The bilge pump of a marine 3 % table: 10 A, 21 ft out and back, 6270 circular mils wanted;
		// SAE 12 AWG has 5833, so 10 AWG.
		{"12 V, 21 ft, 10 A, 3 %", 12, 10, 21, "cfr183", "critical;", "for 1 h", "10 AWG", "12 AWG"},
	} {
		if got := drops(t, twoWire(c.systemV, ambientC, c.amps, c.feet, c.passes, c.practice, c.load, c.mode)); len(got) != 0 {
			t.Errorf("%s: %s has %s", c.what, c.passes, got[0].Message)
		}
		if got := drops(t, twoWire(c.systemV, ambientC, c.amps, c.feet, c.fails, c.practice, c.load, c.mode)); len(got) != 1 {
			t.Errorf("%s: %s passes", c.what, c.fails)
		}
	}
}

// An electrician's text with NEC chapter 9 table 8: 4 A over 100 ft of 16 AWG
// and back at 4.99 ohm/kft (75 degC) is 3.992 V, 16.6 % of 24 V. Its copper has
// the gauge's own area, ours the least that SAE allows.
func TestTrainingText(t *testing.T) {
	found := drops(t, twoWire(24, 70, 4, 200, "16 AWG", "land", "", "for 1 h"))
	if len(found) != 1 {
		t.Fatalf("%d findings", len(found))
	}
	copper, _ := tables.Gauge(16).CopperMM2()
	want := 3.992 * tables.AWGAreaMM2(16) / copper
	if got := *found[0].Measured; math.Abs(got-want) > 0.03*want {
		t.Errorf("%g V, want %g V", got, want)
	}
	if math.Abs(*found[0].Limit-2.4) > 1e-9 || found[0].Unit != "V" || found[0].Severity != finding.Warning {
		t.Errorf("%+v", found[0])
	}
}

// Between 5 and 10 % there is advice, for a critical load there is none below
// its 3 %.
func TestDropGrades(t *testing.T) {
	for _, c := range []struct {
		load     string
		feet     float64
		severity string
	}{{"", 30, ""}, {"", 60, "advice"}, {"", 120, "warning"}, {"critical;", 20, ""}, {"critical;", 30, "warning"}} {
		got := ""
		for _, f := range drops(t, twoWire(12, 20, 6, c.feet, "14 AWG", "land", c.load, "for 1 h")) {
			got = f.Severity.String()
		}
		if got != c.severity {
			t.Errorf("%s %g ft: %q, want %q", c.load, c.feet, got, c.severity)
		}
	}
}

// trunk is n lamps behind one thin wire.
func trunk(n int) string {
	var b strings.Builder
	b.WriteString(`harness trunk { system 12 V; practice land; wire gxl }
zone  room { ambient 0..30 degC }
place here in room
supply battery main { at here; capacity 200 Ah; resistance 5 mohm; post M8; covered }
protection panel aux { at here; limit 60 A; tabs 6.3; covered; way 1 fuse 30 A }
join bus tee { at here }
ground bus neg { at here }
wire feed main.pos -> aux.feed 6 mm2 red 0.15 m
wire long aux.1 -> tee 4 mm2 orange 12 m
wire home neg -> main.neg 10 mm2 black 3 m
`)
	for i := range n {
		fmt.Fprintf(&b, "load led l%d { at here; draws 6 W; least 8 V; meant always }\n", i)
		fmt.Fprintf(&b, "wire a%d tee -> l%d.pos 1 mm2 orange 0.5 m\nwire b%d l%d.neg -> neg 1 mm2 black 0.5 m\n", i, i, i, i)
	}
	return b.String() + "mode on { for 1 h }\n"
}

// One thin trunk is one finding however many lamps hang on it, and its fix
// puts it right.
func TestTrunkIsOneFinding(t *testing.T) {
	text := trunk(40)
	found := drops(t, text)
	if len(found) != 1 || found[0].Subject != "long" || found[0].Fix == nil {
		t.Fatalf("%+v", found)
	}
	if mended := drops(t, mend(text, found[0].Fix)); len(mended) != 0 {
		t.Errorf("after `%s`: %s", found[0].Fix.Title, mended[0].Message)
	}
}

// mend makes the edits of a fix.
func mend(text string, fix *finding.Fix) string {
	edits := slices.Clone(fix.Edits)
	slices.SortFunc(edits, func(a, b finding.Edit) int { return b.Start - a.Start })
	for _, e := range edits {
		text = text[:e.Start] + e.Text + text[e.End:]
	}
	return text
}

// A gauge still to be chosen leaves the load open; a load that no mode turns on
// is judged all the same.
func TestDropOpenAndUnrun(t *testing.T) {
	open := drops(t, twoWire(12, 20, 6, 30, "auto", "land", "", "for 1 h"))
	if len(open) != 1 || open[0].Severity != finding.Open || open[0].Needs[0].Setting != "gauge" {
		t.Errorf("%+v", open)
	}
	text := strings.NewReplacer("wire out  main.pos -> user.pos", "switch toggle s1 { at here; rating 20 A }\nwire mid main.pos -> s1.in 4 mm2 red 0.1 m\nwire out s1.out -> user.pos").
		Replace(twoWire(12, 20, 6, 120, "14 AWG", "land", "", "for 1 h"))
	if got := drops(t, text); len(got) != 1 || !strings.Contains(got[0].Mode, "s1 closed, hot and low") {
		t.Errorf("%+v", got)
	}
}
