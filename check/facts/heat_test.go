package facts_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/check/facts"
	"hame/check/heat"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

func bind(t testing.TB, text string) *harness.Harness {
	t.Helper()
	bound := harness.Bind(syntax.Parse(source.New("t.hame", text)), harness.Options{})
	for _, f := range bound.Findings {
		t.Fatalf("%s: %s", f.Rule, f.Message)
	}
	return bound.Harness
}

func work(t testing.TB, text string) *facts.Facts {
	t.Helper()
	return facts.Work(bind(t, text), nil)
}

func wire(t testing.TB, f *facts.Facts, name string) *harness.Wire {
	t.Helper()
	for _, w := range f.Harness.Wires {
		if w.Name == name {
			return w
		}
	}
	t.Fatalf("no wire %s", name)
	return nil
}

func warmth(t testing.TB, f *facts.Facts, name string) facts.Warmth {
	t.Helper()
	found, ok := f.Warmth(wire(t, f, name))
	if !ok {
		t.Fatalf("%s: temperature not known", name)
	}
	if c := f.Wire(wire(t, f, name)).TemperatureC; c == nil || *c != found.TempC {
		t.Errorf("%s: the figures have %v, not %g", name, c, found.TempC)
	}
	return found
}

// two heaters on one change-over switch, and a third that is always on.
const changeOver = `harness pair { system 12 V; practice land; wire gxl }
zone  cold { ambient -10..30 degC }
zone  warm { ambient -10..60 degC }
place shelf in cold
place floor in warm
bundle run shelf -> floor 2 m { zone warm; COVER; clamp every 300 mm; through none }
supply battery main { at shelf; capacity 90 Ah; cranking 700 A; covered }
protection fuse f1  { at shelf; rating 60 A; family post; covered }
switch toggle s1    { at shelf; rating 40 A; throws 2 }
load heater a { at floor; draws 240 W; meant always }
load heater b { at floor; draws 240 W; meant always }
load heater c { at floor; draws 120 W; meant always }
wire w1 main.pos -> f1.in    16 mm2 sgx red 0.15 m
wire w2 f1.out   -> s1.in    6 mm2 red
wire w3 s1.out1  -> a.pos    2.5 mm2 red
wire w4 s1.out2  -> b.pos    2.5 mm2 red
wire w5 f1.out   -> c.pos    2.5 mm2 red
wire w6 a.neg -> main.neg    2.5 mm2 black
wire w7 b.neg -> main.neg    2.5 mm2 black
wire w8 c.neg -> main.neg    2.5 mm2 black
`

// A wire by itself has the temperature that the heat model gives it alone, at
// the warmer of its two places.
func TestAloneWire(t *testing.T) {
	f := work(t, strings.ReplaceAll(changeOver, "COVER", "cover braid"))
	w := wire(t, f, "w2")
	cable, _ := w.Cable()
	worst := *f.Wire(w).WorstA
	want, _ := heat.Single(heat.WireOf(cable, w.Size), worst, 30)
	if got := warmth(t, f, "w2"); math.Abs(got.TempC-want) > 1e-6 || got.Bundle != nil || got.Amps != worst {
		t.Errorf("w2: %+v, want %g degC", got, want)
	}
}

// In a bundle a wire is hotter than alone, in a cover hotter than bare, and
// what never runs together is never taken together.
func TestBundledWire(t *testing.T) {
	covered := work(t, strings.ReplaceAll(changeOver, "COVER", "cover loom_pa"))
	bare := work(t, strings.ReplaceAll(changeOver, "COVER;", ""))
	w := wire(t, covered, "w3")
	cable, _ := w.Cable()
	hot, plain := warmth(t, covered, "w3"), warmth(t, bare, "w3")
	alone, _ := heat.Single(heat.WireOf(cable, w.Size), hot.Amps, 60)
	if !(alone < plain.TempC && plain.TempC < hot.TempC) || hot.Bundle.Name != "run" || hot.AmbientC != 60 {
		t.Errorf("alone %g, bare %g, covered %+v", alone, plain.TempC, hot)
	}
	for _, name := range []string{"w3", "w4", "w6", "w7"} {
		p := warmth(t, covered, name).At
		a, b := p.Amps(covered.Network.OfWire(wire(t, covered, "w3"))), p.Amps(covered.Network.OfWire(wire(t, covered, "w4")))
		if math.Min(a, b) > 0.1 {
			t.Errorf("%s: both throws carry: %g and %g A", name, a, b)
		}
	}
	if idle, ok := covered.Warmth(wire(t, covered, "w5")); !ok || idle.TempC <= 60 {
		t.Errorf("w5: %+v", idle)
	}
}

// An overload without balance is a finite figure that says so.
func TestRunaway(t *testing.T) {
	text := strings.NewReplacer("COVER", "cover loom_pa", "-> a.pos    2.5 mm2", "-> a.pos 0.35 mm2", "a { at floor; draws 240 W", "a { at floor; draws 960 W")
	f := work(t, text.Replace(changeOver))
	got := warmth(t, f, "w3")
	if !got.Runaway() || got.TempC != heat.MeltingC {
		t.Errorf("%+v", got)
	}
	if other := warmth(t, f, "w2"); other.Runaway() {
		t.Errorf("w2: %+v", other)
	}
}

// Cranking draws 400 A through a cable that is not for it, for seconds.
func TestCrankingIsBrief(t *testing.T) {
	f := work(t, strings.ReplaceAll(changeOver, "COVER", "cover braid")+`load starter turner { at shelf; draws 400 A }
wire s1p main.pos -> turner.pos 25 mm2 sgx red 0.5 m
wire s1n turner.neg -> main.neg 25 mm2 sgx black 0.5 m
mode starting { key start; engine cranking; for 10 s }
`)
	w := wire(t, f, "s1p")
	if got := warmth(t, f, "s1p"); got.TempC != 30 || math.Abs(*f.Wire(w).WorstA) < 200 || f.ModeC(w, 0) != 30 {
		t.Errorf("%+v, %g degC in the mode", got, f.ModeC(w, 0))
	}
}

// What is not declared is not guessed.
func TestUnknownTemperature(t *testing.T) {
	for name, text := range map[string]string{
		"ambient": strings.Replace(changeOver, "zone  warm { ambient -10..60 degC }", "zone  warm", 1),
		"gauge":   strings.Replace(changeOver, "b.neg -> main.neg    2.5 mm2", "b.neg -> main.neg    auto", 1),
	} {
		f := work(t, strings.ReplaceAll(text, "COVER", "cover braid"))
		if got, ok := f.Warmth(wire(t, f, "w3")); ok {
			t.Errorf("%s: %+v", name, got)
		}
		warmth(t, f, "w2")
	}
}

// The drop is that of copper as warm as it is in the mode: at its ambient and
// above by its own heat.
func TestHotDrop(t *testing.T) {
	f := work(t, strings.ReplaceAll(changeOver, "COVER", "cover braid")+"mode warm_up { throw s1 1; ambient 20 degC }\n")
	w := wire(t, f, "w3")
	m := f.Wire(w).Modes[0]
	c := f.ModeC(w, 0)
	if c <= 25 || c >= warmth(t, f, "w3").TempC {
		t.Errorf("%g degC in the mode", c)
	}
	want := *m.CurrentA * *f.Wire(w).ResistanceOhm * (1 + 0.00393*(c-20))
	if math.Abs(*m.DropV-want) > 1e-9 {
		t.Errorf("drop %g V, want %g V", *m.DropV, want)
	}
}

// large is a harness of n circuits of two wires in one run of ten bundles.
func large(n int) string {
	var b strings.Builder
	b.WriteString("harness large { system 24 V; practice land; wire gxl }\nzone z { ambient 0..40 degC }\nplace p0 in z\n")
	for i := range 10 {
		fmt.Fprintf(&b, "place p%d in z\nbundle b%d p%d -> p%d 1 m { cover loom_pa; clamp every 300 mm }\n", i+1, i, i, i+1)
	}
	b.WriteString("supply battery main { at p0; volts 24 V; capacity 900 Ah; cranking 5000 A; covered }\n")
	for i := range n {
		fmt.Fprintf(&b, "protection fuse f%d { at p0; rating 5 A }\nload led l%d { at p%d; draws %d W; meant always }\n", i, i, i%10+1, 10+i%20)
		fmt.Fprintf(&b, "wire a%d main.pos -> f%d.in 1 mm2 red 0.1 m\nwire b_%d f%d.out -> l%d.pos 1 mm2 red\n", i, i, i, i, i)
		fmt.Fprintf(&b, "wire c%d l%d.neg -> main.neg 1 mm2 black\n", i, i)
	}
	return b.String() + "mode lit { for 1 h }\nmode day { key on; engine running }\n"
}

// BenchmarkHeat is the heat alone of 5001 wires, the network solved once.
func BenchmarkHeat(b *testing.B) {
	f := work(b, large(1667))
	for b.Loop() {
		f.HeatAgain()
	}
}
