package readings_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/check"
	"hame/check/readings"
	"hame/check/trial"
	"hame/lang/source"
)

// TestParse: readings as people and spreadsheets write them.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		text, form string
		unit       trial.Unit
		commas     bool
		want       float64
	}{
		{"12.4", "V", trial.Volts, false, 12.4},
		{"12,4", "V", trial.Volts, true, 12.4},
		{"12,4", "V", trial.Volts, false, 12.4},
		{"0.2 V", "mV", trial.Millivolts, false, 0.2},
		{"200 mV", "mV", trial.Millivolts, false, 0.2},
		{"200mV", "V", trial.Volts, false, 0.2},
		{"0,2 V", "mV", trial.Millivolts, true, 0.2},
		{"-14.2", "A", trial.Amperes, false, -14.2},
		{"−14.2", "A", trial.Amperes, false, -14.2},
		{"8", "mA", trial.Milliamps, false, 0.008},
		{"8", "", trial.Milliamps, false, 0.008},
		{"0.008 A", "mA", trial.Milliamps, false, 0.008},
		{"OL", "Mohm", trial.Megohms, false, math.Inf(1)},
		{"open", "ohm", trial.Ohms, false, math.Inf(1)},
		{">20", "Mohm", trial.Megohms, false, 20e6},
		{"< 0.5 Ω", "ohm", trial.Ohms, false, 0.5},
		{"300 kohm", "Mohm", trial.Megohms, false, 3e5},
		{"1.2e3 mV", "mV", trial.Millivolts, false, 1.2},
		{"12 °C", "K", trial.Kelvins, false, 12},
	} {
		got, err := readings.Parse(c.text, c.form, c.unit, c.commas)
		if err != nil || got != c.want && math.Abs(got-c.want) > 1e-12*math.Abs(c.want) {
			t.Errorf("%q: %g (%v), want %g", c.text, got, err, c.want)
		}
	}
}

// TestParseRefuses: what is no reading of the line is not taken for one.
func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text, form string
		unit       trial.Unit
	}{
		{"abc", "V", trial.Volts},
		{"0.2 A", "V", trial.Volts},
		{"OL", "V", trial.Volts},
		{"12", "A", trial.Volts},
		{"1,234", "mV", trial.Millivolts},
		{"1.234,5", "mV", trial.Millivolts},
		{"1 234", "mV", trial.Millivolts},
		{"NaN", "V", trial.Volts},
		{"1e400", "V", trial.Volts},
		{"1e13", "V", trial.Volts},
		{">12", "V", trial.Volts},
		{"12 furlong", "V", trial.Volts},
		{"=2+5", "V", trial.Volts},
		{"12V12", "V", trial.Volts},
		{"1 MOHM", "ohm", trial.Ohms},
	} {
		if got, err := readings.Parse(c.text, c.form, c.unit, false); err == nil {
			t.Errorf("%q in %s for a line in %s is read as %g", c.text, c.form, c.unit.Name, got)
		}
	}
}

// TestRead: forms as spreadsheets write them.
func TestRead(t *testing.T) {
	for name, text := range map[string]string{
		"commas":     "id,unit,reading\r\ncont:w1,ohm,0.1\r\n",
		"semicolons": "id;unit;reading\ncont:w1;ohm;0,1\n",
		"tabs":       "id\tunit\treading\ncont:w1\tohm\t0,1\n",
		"mark":       "\ufeffid,unit,reading\ncont:w1,ohm,0.1\n",
		"sep":        "sep=;\nid;unit;reading\ncont:w1;ohm;0.1\n",
		"title":      "Test sheet,,\n,,\nid,unit,reading\ncont:w1,ohm,0.1\n",
		"order":      "Reading,note,ID\n'0.1,,'cont:w1\n",
		"quotes":     "\"id\",\"unit\",\"reading\"\n\"cont:w1\",\"ohm\",\" 0.1 \"\n",
		"short rows": "id,unit,reading,note\n\ncont:w1,ohm,0.1\n,,\n",
	} {
		s, err := readings.Read([]byte(text))
		if err != nil || len(s.Rows) != 1 || s.Rows[0].ID != "cont:w1" {
			t.Errorf("%s: %+v (%v)", name, s, err)
			continue
		}
		if v, err := readings.Parse(s.Rows[0].Read, s.Rows[0].Unit, trial.Ohms, s.Commas); err != nil || v != 0.1 {
			t.Errorf("%s: %q is %g (%v)", name, s.Rows[0].Read, v, err)
		}
	}
}

// TestReadRefuses: what is no form, or too much of one, is refused with a reason.
func TestReadRefuses(t *testing.T) {
	for want, text := range map[string]string{
		"columns `id`":    "a,b\n1,2\n",
		"no line with":    "",
		"UTF-8":           "\xff\xfei\x00d\x00",
		"more than 20000": "id,reading\n" + strings.Repeat("a,1\n", 20_001),
		"more than 64":    "id,reading" + strings.Repeat(",x", 70) + "\n",
		"letters":         "id,reading\nx," + strings.Repeat("9", 5000) + "\n",
		"larger than":     strings.Repeat("x", readings.MaxBytes+1),
		"first 20 lines":  strings.Repeat("x\n", 30),
	} {
		if _, err := readings.Read([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.20q: %v, want something with %q", text, err, want)
		}
	}
}

// FuzzRead: whatever a form holds, it is read or refused, and judged.
func FuzzRead(f *testing.F) {
	plan := pumpPlan(f)
	f.Add([]byte("id,unit,reading\ncont:w1,ohm,OL\nvolts:h1:heat,V,3\n"))
	f.Add([]byte("\ufeffsep=;\nid;reading\ndrop:w3:heat;0,2 V\n\"a\";\"\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := readings.Read(text)
		if err != nil {
			return
		}
		var b strings.Builder
		if err := readings.WriteText(&b, "h", readings.Judge(plan, s)); err != nil {
			t.Fatal(err)
		}
		if err := readings.WriteJSON(&b, "0", "h", readings.Judge(plan, s)); err != nil {
			t.Fatal(err)
		}
	})
}

// pump is one heater on a battery: what is wrong with it can be worked out by
// hand.
const pump = `harness h { system 12 V }
zone warm { ambient 20..20 degC }
place here, there in warm
supply battery main { at here; capacity 70 Ah; resistance 10 mohm; standby 8 mA; existing }
protection fuse f1 { at here; rating 10 A }
switch toggle s1 { at here; rating 20 A }
load heater h1 { at there; draws 6 A at 12 V }
wire w1 main.pos -> f1.in 2.5 mm2 gxl red 0.2 m
wire w2 f1.out -> s1.in 2.5 mm2 gxl red 0.5 m
wire w3 s1.out -> h1.pos 2.5 mm2 gxl red 3 m
wire w4 h1.neg -> main.neg 2.5 mm2 gxl black 3 m
mode heat { closed s1; charge 100 %; ambient 20 degC }
`

func pumpPlan(t testing.TB) *trial.Plan {
	t.Helper()
	return trial.Of(check.File(source.New("p.hame", pump), check.Options{}).Facts)
}

// Ohm's law by hand: 12.73 V (a rested lead battery at 100 %, from the
// open-circuit table) over the heater's 2 ohm, about 0.05 ohm of feed (3.7 m of 8
// mohm a metre, a fuse of 8 mohm, a switch of 10), 0.025 ohm of return and the
// battery's 0.01. With 0.2 ohm more in the return that is 2.285 ohm and 5.57 A:
// 11.14 V at the heater, 0.28 V lost ahead of it and 1.25 V behind. Given those
// readings the return is named with 0.2 ohm.
func TestByHand(t *testing.T) {
	r := judge(t, pumpPlan(t), "id,unit,reading\nsource:main:heat,V,12.67\nvolts:h1:heat,V,11.14\nfeed:h1:heat,mV,280\nreturn:h1:heat,mV,1253\n")
	if len(r.Findings) != 1 || r.Findings[0].Suspects[0].Name != "w4" {
		t.Fatalf("%+v", r.Findings)
	}
	if ohm := *r.Findings[0].Suspects[0].AddedOhm; math.Abs(ohm-0.2) > 0.02 {
		t.Errorf("w4 has %g ohm more, by hand 0.2", ohm)
	}
}

// A feed that is long, with no line of one part measured: its pieces cannot be
// told apart, and the report says what would.
func TestRivals(t *testing.T) {
	plan := pumpPlan(t)
	r := judge(t, plan, "id,unit,reading\nsource:main:heat,V,12.67\nvolts:h1:heat,V,11.14\nfeed:h1:heat,mV,1394\nreturn:h1:heat,mV,139\n")
	if len(r.Findings) != 1 {
		t.Fatalf("%+v", r.Findings)
	}
	f := r.Findings[0]
	named := map[string]bool{}
	for _, s := range f.Suspects {
		named[s.Name] = true
	}
	for _, name := range []string{"w1", "f1", "w2", "s1.out", "w3"} {
		if !named[name] {
			t.Errorf("%s is in the feed and not named: %+v", name, f.Suspects)
		}
	}
	if named["w4"] || len(f.Measure) == 0 {
		t.Errorf("suspects %+v, to measure %v", f.Suspects, f.Measure)
	}
	for _, id := range f.Measure {
		if l, ok := plan.Find(id); !ok || !l.Spare {
			t.Errorf("%s is no line of one part", id)
		}
	}
}

// TestMatch: rows that are no rows of the plan, doubled, of another state or not
// readable are told and never judged.
func TestMatch(t *testing.T) {
	r := judge(t, pumpPlan(t), "id,low,high,unit,reading\nnone:x,,,V,1\n,,,V,3\ncont:w1,0,0.7,ohm,0.1\ncont:w2,0,0.5,ohm,0.1\ncont:w2,,,ohm,0.1\ncont:w3,,,ohm,0.1\ncont:w3,,,ohm,0.4\ncont:w4,,,ohm,soft\n")
	states := map[string]readings.State{}
	for _, i := range r.Items {
		states[i.Line.ID] = i.State
	}
	for id, want := range map[string]readings.State{
		"cont:w1": readings.Within, "cont:w2": readings.Within, "cont:w3": readings.Unreadable, "cont:w4": readings.Unreadable, "volts:h1:heat": readings.Blank,
	} {
		if states[id] != want {
			t.Errorf("%s is %s, want %s", id, states[id], want)
		}
	}
	if text := fmt.Sprint(r.Remarks); len(r.Remarks) != 3 || !strings.Contains(text, "none:x") || !strings.Contains(text, "another state") {
		t.Errorf("%q", r.Remarks)
	}
	if r.Proved() {
		t.Error("not all was measured, and it counts as proved")
	}
}

// TestAlone: what points to something with no pattern.
func TestAlone(t *testing.T) {
	r := judge(t, pumpPlan(t), "id,unit,reading\npol:h1:heat,V,-12.6\niso:w1:return,Mohm,0.3\npulled:f1:heat,V,11\nwarm:f1:heat,K,55\n")
	var all []string
	for _, i := range r.Items {
		if i.State == readings.Drifted {
			all = append(all, i.Why)
		}
	}
	text := strings.Join(all, "\n")
	for _, want := range []string{"h1 are the wrong way round", "main.pos and main.neg touch", "past the pulled f1", "the joint at f1.in"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
}
