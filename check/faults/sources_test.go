package faults_test

import (
	"strings"
	"testing"

	"hame/check/faults"
)

// An alternator gives no more than its output into the deadest short, and at
// idle what it gives there; a converter its output.
func TestLimitedSources(t *testing.T) {
	n := built(t, `harness limited { system 12 V }
zone room { ambient 20..20 degC }
place here in room
supply alternator alt { at here; output 60 A; idle 20 A }
supply converter conv { at here; takes 12 V; gives 5 V; output 8 A }
load led lamp { at here; draws 5 W }
wire w1 alt.pos -> conv.in 2.5 mm2 1 m
wire w2 conv.out -> lamp.pos 2.5 mm2 1 m
wire w3 lamp.neg -> alt.neg 2.5 mm2 1 m
wire w4 conv.neg -> alt.neg 2.5 mm2 1 m
`)
	if f := at(t, n, "w1"); !f.Limited || f.LeastA != 20 || f.MostA != 60 {
		t.Errorf("alternator: %+v", f)
	}
	if f := at(t, n, "w2"); !f.Limited || f.LeastA != 8 || f.MostA != 8 {
		t.Errorf("converter: %+v", f)
	}
}

// Two 12 V batteries in series feed with twice the volts behind twice the
// resistance; the lower one alone feeds what hangs between them.
func TestString(t *testing.T) {
	n := built(t, `harness string { system 24 V }
zone room { ambient 20..20 degC }
place here, there in room
supply battery low { at here; volts 12 V; capacity 70 Ah; resistance 10 mohm }
supply battery top { at here; volts 12 V; capacity 70 Ah; resistance 10 mohm }
load led lamp { at there; draws 24 W }
load led half { at there; draws 12 W }
wire link low.pos -> top.neg 50 mm2 0.1 m { ends pin, pin }
wire w1 top.pos -> lamp.pos 1.5 mm2 10 m { ends pin, pin }
wire w2 lamp.neg -> low.neg 1.5 mm2 10 m { ends pin, pin }
wire w3 low.pos -> half.pos 1.5 mm2 10 m { ends pin, pin }
wire w4 half.neg -> low.neg 1.5 mm2 10 m { ends pin, pin }
mode lit { charge 75 % }
`)
	// 2 x 12.65 V (battery handbook) over 20 mohm and 2 x 133.6 mohm (IEC 60228
	// class 5 and two crimps each way).
	near(t, "both", at(t, n, "w1").MostA, 25.3/(0.020+0.2672), 2e-3)
	near(t, "the lower one", at(t, n, "w3").MostA, 12.65/(0.010+0.2672), 2e-3)
}

// Without resistance or cranking amperes no current is known; neither is one
// over a borrowed circuit whose run is not declared, or a wire with no length.
func TestWhatIsLacking(t *testing.T) {
	for _, c := range []struct{ from, to, name, setting string }{
		{"; resistance 10 mohm", "", "main", "cranking"},
		{"; resistance 10 mohm", "; chemistry lithium; cranking 500 A", "main", "resistance"},
		{"2.5 mm2 1 m ", "auto 1 m ", "w1", "gauge"},
		{"there; draws", "here; draws", "w2", "length"},
	} {
		text := strings.Replace(shelf, c.from, c.to, 1)
		if c.setting == "length" {
			text = strings.Replace(strings.Replace(text, "1.5 mm2 10 m", "1.5 mm2", 1), "here; draws", "there; draws", 1)
		}
		f := at(t, built(t, text), "w2")
		if f.LeastLacks == nil || f.LeastLacks.Name != c.name || f.LeastLacks.Setting != c.setting {
			t.Errorf("%s: lacks %+v", c.setting, f.LeastLacks)
		}
		if isSource := c.name == "main"; (f.MostLacks != nil) != isSource {
			t.Errorf("%s: the greatest lacks %+v", c.setting, f.MostLacks)
		}
	}
	n := built(t, `harness borrowed { system 12 V }
supply battery main { capacity 70 Ah; cranking 500 A }
supply tap dash { behind fuse 10 A; carries 2 A; live on }
load led lamp { draws 5 W }
wire w1 dash.out -> lamp.pos 1 mm2 1 m
wire w2 lamp.neg -> main.neg 1 mm2 1 m
`)
	if f := at(t, n, "w1"); f.LeastLacks == nil || f.LeastLacks.Name != "dash" || f.LeastLacks.Setting != "gauge" {
		t.Errorf("tap: lacks %+v", f.LeastLacks)
	}
}

// A diode takes its drop off the least current and lets nothing back.
func TestDiode(t *testing.T) {
	text := strings.NewReplacer(
		"protection fuse f1 { at here; rating 10 A }", "switch diode d1 { at here; rating 10 A }",
		"f1.in", "d1.anode", "f1.out", "d1.cathode").Replace(shelf)
	f := at(t, built(t, text), "w2")
	// As in the shelf without its fuse, 0.7 V less behind 10 mohm more.
	near(t, "least", f.LeastA, (12.45-0.7)/(0.29348-0.0077+0.01), 1e-4)
	back := strings.NewReplacer("d1.anode", "d1.cathode", "d1.cathode", "d1.anode").Replace(text)
	if all := everyAt(t, built(t, back), "w2"); len(all) != 0 {
		t.Errorf("a diode leads back: %+v", all)
	}
}

// The same text gives the same figures, in the same order.
func TestFaultsAreSteady(t *testing.T) {
	text := strings.Replace(tree, "BOLTED", "5 A", 1)
	first := everyFault(t, text)
	for range 5 {
		again := everyFault(t, text)
		for i := range first {
			if first[i].LeastA != again[i].LeastA || first[i].MostA != again[i].MostA || first[i].Source != again[i].Source {
				t.Fatalf("%d: %+v, then %+v", i, first[i], again[i])
			}
			if first[i].LeastA > first[i].MostA {
				t.Errorf("least %g above greatest %g", first[i].LeastA, first[i].MostA)
			}
		}
	}
}

func everyFault(t *testing.T, text string) []faults.Fault {
	n := built(t, text)
	r := faults.Find(n)
	var list []faults.Fault
	for _, w := range n.Harness.Wires {
		list = append(list, r.At(w)...)
	}
	return list
}
