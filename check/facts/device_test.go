package facts_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hame/check/facts"
	"hame/check/figures"
)

const bench = `harness h { system 12 V; practice land; wire gxl; slack 100 mm }
zone dry { ambient 20..20 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
ground chassis frame
wire back main.neg -> frame 10 mm2 black 1 m
`

func figuresOf(t *testing.T, f *facts.Facts, name string) *figures.Device {
	t.Helper()
	for _, d := range f.Figures.Devices {
		if d.Device.Name == name {
			return d
		}
	}
	t.Fatalf("no figures of %s", name)
	return nil
}

// What is borrowed from a tap flows through its contact, its device and its run
// one after the other, and counts once; what its circuit carries besides does
// not. Its volts are those at its terminal.
func TestTapFigures(t *testing.T) {
	f := worked(t, bench+`supply tap t1 { at shelf; behind fuse 15 A; carries 2 A; live on; gauge 2.5 mm2; run 1 m }
load heater h1 { at shelf; draws 7 A }
wire w1 t1.out -> h1.pos 2.5 mm2 red 1 m
wire w2 h1.neg -> frame 2.5 mm2 black 1 m
mode lit { key on }
`)
	tap, wire := figuresOf(t, f, "t1").Modes[0], f.Wire(f.Harness.Wires[1]).Modes[0]
	if math.Abs(*tap.CurrentA-*wire.CurrentA) > 1e-6 {
		t.Errorf("the tap gives %g A and its wire carries %g A", *tap.CurrentA, *wire.CurrentA)
	}
	lit := figuresOf(t, f, "h1").Modes[0]
	p := f.Survey.Modes[0]
	lost := *wire.CurrentA * (f.Network.Elements[f.Network.OfWire(f.Harness.Wires[1])].Ohm + f.Network.Elements[f.Network.OfWire(f.Harness.Wires[2])].Ohm)
	back := p.Volts(f.Network.Elements[f.Network.OfWire(f.Harness.Wires[0])].B) - p.Volts(f.Network.Elements[f.Network.OfWire(f.Harness.Wires[0])].A)
	if got, want := *tap.Volts, *lit.Volts+lost+back; math.Abs(got-want) > 1e-4 {
		t.Errorf("%g V at the tap; the load gets %g V, and with what is lost that is %g V", got, *lit.Volts, want)
	}
}

// A panel carries the sum of its ways and a load that of its inputs, in modes
// and at worst; of a switch that turns a motor round, each contact carries the
// motor's current.
func TestSumsOfDevices(t *testing.T) {
	f := worked(t, bench+`protection panel aux { at shelf; feed stud M6; limit 60 A; way 1 fuse 10 A; way 2 fuse 15 A }
load module lamp { at shelf; input low 24 W; input high 36 W }
switch toggle turn { at shelf; rating 20 A; poles 2; throws 2 }
protection fuse f1 { at shelf; rating 15 A }
load motor winch { at shelf; draws 6 A }
wire w1 main.pos -> aux.feed 10 mm2 red 0.2 m
wire w2 aux.1 -> lamp.low 2.5 mm2 red 1 m
wire w3 aux.2 -> lamp.high 2.5 mm2 red 1 m
wire w4 lamp.neg -> frame 2.5 mm2 black 1 m
wire w5 main.pos -> f1.in 2.5 mm2 red 0.1 m
wire w6 f1.out -> turn.1.in 2.5 mm2 red 1 m
wire w7 turn.1.out1 -> winch.pos 2.5 mm2 red 1 m
wire w8 winch.neg -> turn.2.out1 2.5 mm2 black 1 m
wire w9 turn.2.in -> frame 2.5 mm2 black 1 m
mode lit { key on; throw turn 1 }
`)
	for device, wire := range map[string]string{"aux": "w1", "lamp": "w4", "turn": "w6"} {
		for _, w := range f.Harness.Wires {
			if w.Name != wire {
				continue
			}
			d := figuresOf(t, f, device)
			if got, want := math.Abs(*d.Modes[0].CurrentA), math.Abs(*f.Wire(w).Modes[0].CurrentA); want < 1 || math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: %g A, and its wire %g A", device, got, want)
			}
			if got, want := *d.WorstA, *f.Wire(w).WorstA; math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: %g A at worst, and its wire %g A", device, got, want)
			}
		}
	}
}

// No device carries more in a mode of the survey's positions than at worst, in
// any example: modes that crank are judged by themselves, but seen too.
func TestWorstIsNoLessThanAnyMode(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/*.hame")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, name := range files {
		t.Run(strings.TrimPrefix(name, "../../examples/"), func(t *testing.T) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			f := worked(t, string(text))
			for _, d := range f.Figures.Devices {
				for _, m := range d.Modes {
					if m.CurrentA != nil && d.WorstA != nil && !f.AnyShorted() && math.Abs(*m.CurrentA) > *d.WorstA+1e-6 {
						t.Errorf("%s: %g A in %s, %g A at worst", d.Device.Name, *m.CurrentA, m.Mode, *d.WorstA)
					}
				}
			}
		})
	}
}

// A length from an alternator that cannot harm the wire is not unprotected.
func TestUnprotectedFromWhatHarms(t *testing.T) {
	for _, c := range []struct {
		output string
		want   float64
	}{{"20 A", 0.15}, {"200 A", 0.65}} {
		f := worked(t, bench+fmt.Sprintf(`supply alternator alt { at shelf; output %s; covered }
protection fuse f1 { at shelf; rating 10 A }
load heater h1 { at shelf; draws 7 A }
wire w1 main.pos -> f1.in 6 mm2 red 0.15 m
wire w2 alt.pos -> main.pos 6 mm2 red 0.5 m
wire w3 alt.neg -> frame 6 mm2 black 0.5 m
wire w4 f1.out -> h1.pos 2.5 mm2 red 1 m
wire w5 h1.neg -> frame 2.5 mm2 black 1 m
`, c.output))
		if got := *f.Wire(f.Harness.Wires[1]).UnprotectedM; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("alternator of %s: %g m unprotected, want %g", c.output, got, c.want)
		}
	}
}

// With a short that no switch opens no current is known but the short's, and
// with nothing on there is none at all.
func TestUnknownAndNoCurrents(t *testing.T) {
	text := bench + `protection fuse f1 { at shelf; rating 10 A }
load heater h1 { at shelf; draws 7 A }
switch toggle s1 { at shelf; rating 20 A }
wire w1 main.pos -> f1.in 2.5 mm2 red 0.1 m
wire w2 f1.out -> s1.in 2.5 mm2 red 1 m
wire w3 s1.out -> h1.pos 2.5 mm2 red 1 m
wire w4 h1.neg -> frame 2.5 mm2 black 1 m
mode off { key off }
`
	f := worked(t, text)
	if got := *f.Figures.Modes[0].BatteryA; got != 0 {
		t.Errorf("with nothing on the battery gives %g A", got)
	}
	f = worked(t, text+"wire w5 f1.in -> frame 2.5 mm2 black 1 m\n")
	for _, w := range f.Figures.Wires {
		if w.WorstA != nil || w.Worst != nil {
			t.Errorf("shorted for good: %s carries %g A at worst", w.Wire.Name, *w.WorstA)
		}
	}
	if f.Figures.Coverage.Shorted == 0 {
		t.Error("no position is told to be shorted")
	}
}
