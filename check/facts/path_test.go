package facts_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// worked works out a harness from its text.
func worked(t *testing.T, text string) *facts.Facts {
	t.Helper()
	bound := harness.Bind(syntax.Parse(source.New("t.hame", text)), harness.Options{})
	if bound.Harness == nil {
		t.Skip("a library")
	}
	return facts.Work(bound.Harness, nil)
}

// TestPathsKeepKirchhoff walks every element that carries current in any mode
// of any example. By Kirchhoff's voltage law the drops along a loop sum to what
// the source gives less what the load gets, each drop being Ohm's law for the
// resistance at the temperature that is named; and a way has no gap.
func TestPathsKeepKirchhoff(t *testing.T) {
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
			for n, p := range f.Survey.Modes {
				for i := range f.Network.Elements {
					keepsKirchhoff(t, f, f.Harness.Modes[n].Name, p, i)
				}
			}
		})
	}
}

func keepsKirchhoff(t *testing.T, f *facts.Facts, mode string, p *states.Point, element int) {
	t.Helper()
	const carries = 1e-4
	e := &f.Network.Elements[element]
	if p.Failed != nil || math.Abs(p.Amps(element)) < carries || e.A == e.B {
		return
	}
	w, ok := f.Path(element, p)
	if !ok {
		t.Errorf("%s: %s carries %g A and lies on no way", mode, e.Name, p.Amps(element))
		return
	}
	sum := 0.0
	for _, half := range [][]facts.Step{w.Feed, w.Back} {
		for k, s := range half {
			sum += s.DropV
			if k > 0 && !meet(&f.Network.Elements[half[k-1].Element], &f.Network.Elements[s.Element]) {
				t.Errorf("%s: %s: a gap before %s", mode, e.Name, f.Network.Elements[s.Element].Name)
			}
		}
	}
	if gap := math.Abs(sum - (w.SourceV - w.LoadV)); !(gap <= 1e-6) {
		t.Errorf("%s: %s: drops sum to %.9f V, source %.9f V less load %.9f V", mode, e.Name, sum, w.SourceV, w.LoadV)
	}
}

func meet(a, b *network.Element) bool {
	return a.A == b.A || a.A == b.B || a.B == b.A || a.B == b.B
}

// TestPathByHand: a lamp of 2 ohm on 10 m of 1 mm2 there and back. IEC 60228
// class 5 has 19.5 ohm/km for 1 mm2 at 20 degC; copper gains 0.393 % a kelvin,
// so 40 degC makes 10 m 0.2103 ohm (before the ends).
func TestPathByHand(t *testing.T) {
	f := worked(t, `harness h { system 12 V; practice land; wire gxl }
zone z { ambient 0..40 degC }
place p in z
supply battery main { at p; capacity 70 Ah; resistance 10 mohm }
protection fuse f1 { at p; rating 10 A }
load heater pad { at p; draws 72 W; meant always }
wire w1 main.pos -> f1.in   1 mm2 1 m
wire w2 f1.out   -> pad.pos 1 mm2 10 m
wire w3 pad.neg  -> main.neg 1 mm2 10 m
mode on_now { charge 100 % }
`)
	pad := element(t, f, "pad")
	w, ok := f.Path(pad, f.Survey.Modes[0])
	if !ok {
		t.Fatal("no way")
	}
	var names []string
	for _, s := range append(append([]facts.Step{}, w.Feed...), w.Back...) {
		names = append(names, f.Network.Elements[s.Element].Name)
	}
	if got := strings.Join(names, " "); got != "w1 f1 w2 w3" {
		t.Errorf("the way is %s, want w1 f1 w2 w3", got)
	}
	s := w.Feed[2]
	ends := 0.0003*2 + 0.0015 // crimps and a tab or ring; what is landed on decides
	if conductor := 0.195 * (1 + 0.00393*20); s.TempC != 40 || s.Ohm < conductor || s.Ohm > (0.195+2*ends)*1.0787 {
		t.Errorf("w2 has %.5f ohm at %g degC, want %.5f ohm and its ends", s.Ohm, s.TempC, conductor)
	}
}

func element(t *testing.T, f *facts.Facts, name string) int {
	t.Helper()
	for i, e := range f.Network.Elements {
		if e.Name == name {
			return i
		}
	}
	t.Fatalf("no element %s", name)
	return 0
}

// TestBehind: a device feeds what lies away from the source, whichever way
// round it is wired; one in a return takes what lies ahead; one between two sources feeds either way.
func TestBehind(t *testing.T) {
	f := worked(t, `harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity 70 Ah; resistance 10 mohm }
supply alternator alt { output 50 A }
protection fuse f1 { rating 10 A }
protection fuse f2 { rating 60 A }
switch toggle s { rating 10 A }
switch toggle r { rating 10 A }
load led lamp { draws 20 W }
load led glow { draws 1 W }
load led dial { draws 2 W }
wire w1 main.pos -> f1.out  1 mm2 1 m
wire w2 f1.in    -> s.in    1 mm2 1 m
wire w3 s.out    -> lamp.pos 1 mm2 1 m
wire w4 lamp.neg -> main.neg 1 mm2 1 m
wire w5 main.pos -> f2.in 10 mm2 1 m
wire w6 f2.out -> alt.pos 10 mm2 1 m
wire w7 alt.neg -> main.neg 10 mm2 1 m
wire w8 alt.pos -> dial.pos 1 mm2 1 m
wire w9 dial.neg -> main.neg 1 mm2 1 m
wire wa alt.pos -> glow.pos 1 mm2 1 m
wire wb glow.neg -> r.out 1 mm2 1 m
wire wc r.in -> main.neg 1 mm2 1 m
`)
	for fuse, want := range map[string]string{
		"f1": "lamp false", "f2": "lamp glow dial true", "s": "lamp false",
		"r": "glow false", "w4": "lamp glow dial true",
	} {
		loads, either := f.Behind(element(t, f, fuse))
		var names []string
		for _, i := range loads {
			names = append(names, f.Network.Elements[i].Name)
		}
		got := strings.Join(names, " ") + map[bool]string{true: " true", false: " false"}[either]
		if got != want {
			t.Errorf("behind %s: %s, want %s", fuse, got, want)
		}
	}
}
