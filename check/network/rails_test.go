package network_test

import (
	"testing"

	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// TestRails: a draw that names no volts is at those of the rail that it hangs on:
// the first of several converters', through a diode only forwards, and the system's
// where anything else feeds it too (language: loads).
func TestRails(t *testing.T) {
	const text = `harness h { system 12 V }
ground chassis frame
supply battery main { capacity 70 Ah }
supply converter five { takes 12 V; gives 5 V; output 9 A }
supply converter nine { takes 12 V; gives 9 V; output 9 A }
switch diode d { rating 5 A }
switch diode e { rating 5 A }
load led own { draws 1 W }
load led both { draws 1 W }
load led behind { draws 1 W }
load led against { draws 1 W }
load led mixed { draws 1 W }
wire a0 main.neg -> frame 1 mm2 1 m
wire a1 nine.out -> own.pos 1 mm2 1 m
wire a2 nine.out -> d.anode 1 mm2 1 m
wire a3 d.cathode -> both.pos 1 mm2 1 m
wire a4 five.out -> both.pos 1 mm2 1 m
wire a5 both.pos -> behind.pos 1 mm2 1 m
wire a6 nine.out -> e.cathode 1 mm2 1 m
wire a7 e.anode -> against.pos 1 mm2 1 m
wire a8 five.out -> mixed.pos 1 mm2 1 m
wire a9 main.pos -> d.anode 1 mm2 1 m
`
	for battery, want := range map[string]map[string]float64{
		"":     {"own": 9, "both": 5, "behind": 5, "against": 12, "mixed": 5},
		"tied": {"own": 12, "both": 12, "behind": 12, "against": 12, "mixed": 12},
	} {
		used := text
		if battery == "" {
			used = text[:len(text)-len("wire a9 main.pos -> d.anode 1 mm2 1 m\n")]
		}
		r := harness.Bind(syntax.Parse(source.New("t.hame", used)), harness.Options{})
		for _, f := range r.Findings {
			t.Fatal(f.Message)
		}
		n := network.Build(r.Harness)
		for _, e := range n.Elements {
			if e.Load != nil && want[e.Name] != 0 && e.Load.AtV != want[e.Name] {
				t.Errorf("battery %q: %s draws at %g V, want %g V", battery, e.Name, e.Load.AtV, want[e.Name])
			}
		}
	}
}
