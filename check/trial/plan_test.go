package trial_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/network"
	"hame/check/trial"
	"hame/lang/source"
)

func planOf(t *testing.T, text string) (*trial.Plan, *check.Run) {
	t.Helper()
	run := check.File(source.New("t.hame", text), check.Options{})
	if run.Harness == nil {
		t.Fatal("no harness")
	}
	return trial.Of(run.Facts), run
}

func yardPlan(t *testing.T, seed uint64) (*trial.Plan, *check.Run) {
	return planOf(t, yard.Make(seed).Print().Source)
}

// pump is one pump on a battery: 2 ohm of load, so that all can be worked out by
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

func find(t *testing.T, p *trial.Plan, id string) trial.Line {
	t.Helper()
	l, ok := p.Find(id)
	if !ok {
		t.Fatalf("no line %s", id)
	}
	return l
}

// The pump's loop by Ohm's law: a rested lead battery at 100 % has 12.73 V (the
// open-circuit table, less its correction), class 5 copper of 2.5 mm2 7.98 mohm a
// metre (IEC 60228). What each line expects must add up to that loop.
func TestOhmsLaw(t *testing.T) {
	plan, run := planOf(t, pump)
	n := run.Facts.Network
	loop := 0.010 + 2.0 // battery and heater
	for i := range n.Elements {
		switch n.Elements[i].Kind {
		case network.Wire, network.Fuse, network.Contact:
			loop += n.Elements[i].Ohm
		}
	}
	source := *find(t, plan, "source:main:heat").Expect
	volts := *find(t, plan, "volts:h1:heat").Expect
	feed := *find(t, plan, "feed:h1:heat").Expect
	back := *find(t, plan, "return:h1:heat").Expect
	if got := source - volts - feed - back; math.Abs(got) > 0.011 {
		t.Errorf("source %g V less feed %g and return %g V is not %g V at the load", source, feed, back, volts)
	}
	amps := volts / 2
	copper := 3 * 7.98e-3 * amps
	if w := *find(t, plan, "drop:w4:heat").Expect; w < copper || w > copper+amps*5e-3 {
		t.Errorf("w4 drops %g V, its copper alone %g V", w, copper)
	}
	if emf := amps * loop; math.Abs(emf-12.73) > 0.1 {
		t.Errorf("%g A round %g ohm make %g V, a full battery has 12.73 V", amps, loop, emf)
	}
	if off := *find(t, plan, "keyoff:main").Expect; math.Abs(off-0.008) > 1e-4 {
		t.Errorf("with all off %g A are expected, the machine draws 8 mA", off)
	}
	pulled := find(t, plan, "pulled:f1:heat")
	if *pulled.Expect != 0 || !strings.Contains(pulled.Note, "dead: h1") {
		t.Errorf("f1 pulled: %g V, %q", *pulled.Expect, pulled.Note)
	}
}

// The books' limits, as seen in workshop manuals: a cable 0.2 V, a switch 0.3 V.
func TestBooks(t *testing.T) {
	plan, _ := planOf(t, pump)
	for id, limit := range map[string]float64{"drop:w3:heat": 0.2, "drop:s1.out:heat": 0.3, "feed:h1:heat": 1} {
		if l := find(t, plan, id); l.Limit != limit {
			t.Errorf("%s: limit %g V, the books have %g V", id, l.Limit, limit)
		}
	}
}

// A fact that is missing is followed to the lines that it decides, and no other.
func TestMissing(t *testing.T) {
	plan, _ := planOf(t, strings.Replace(pump, "gxl red 3 m", "gxl red", 1))
	if l := find(t, plan, "cont:w3"); l.Expect != nil || len(l.Needs) == 0 || l.Needs[0] != "w3 length" {
		t.Errorf("w3 has no length, and its line expects %v (%v)", l.Expect, l.Needs)
	}
	if l := find(t, plan, "volts:h1:heat"); l.Expect != nil {
		t.Errorf("the load's volts hang on w3's length, and %g V are expected", *l.Expect)
	}
	if l := find(t, plan, "cont:w4"); l.Expect == nil {
		t.Errorf("w4 needs nothing: %v", l.Needs)
	}
	if l := find(t, plan, "pulled:f1:heat"); l.High != 0.5 {
		t.Errorf("what is dead behind a pulled fuse stays so: %+v", l)
	}
}

// TestYard: every line of sound harnesses expects what lies within its band, ids
// are not doubled, and every new wire and protective device that carries
// anything is in the plan.
func TestYard(t *testing.T) {
	for seed := range uint64(40) {
		plan, run := yardPlan(t, seed)
		seen := map[string]bool{}
		for _, l := range plan.Lines {
			if seen[l.ID] {
				t.Errorf("seed %d: %s twice", seed, l.ID)
			}
			seen[l.ID] = true
			if l.Expect == nil || *l.Expect < l.Low || *l.Expect > l.High || l.From == "" || l.To == "" {
				t.Errorf("seed %d: %+v", seed, l)
			}
		}
		for _, w := range run.Harness.Wires {
			if !w.Existing && w.Ends[0].Terminal != nil && w.Ends[1].Terminal != nil && !seen["cont:"+w.Name] {
				t.Errorf("seed %d: %s is not rung through", seed, w.Name)
			}
		}
	}
}

// TestIDs: what else a harness has does not move a line's id or its figures'
// names: a wire more changes none of them.
func TestIDs(t *testing.T) {
	plan, _ := planOf(t, pump)
	more, _ := planOf(t, strings.Replace(pump, "mode heat", "load led l9 { at here; draws 3 W }\nwire a0 f1.out -> l9.pos 1 mm2 gxl blue 1 m\nwire a1 l9.neg -> main.neg 1 mm2 gxl black 1 m\nmode heat", 1))
	for _, l := range plan.Lines {
		if _, ok := more.Find(l.ID); !ok {
			t.Errorf("%s is gone", l.ID)
		}
	}
}

// TestAnything: whatever a harness looks like, a plan is made of it.
func TestAnything(t *testing.T) {
	files := []string{"harness h {}", "harness h { system 48 V }\nload led a", "harness h {}\nwire w1 a.b -> c.d", "harness h {}\nsupply battery b { capacity 1 Ah }\nwire w b.pos -> b.neg 1 mm2 1 m"}
	for _, dir := range []string{"../../examples/faulty", "../../examples/trailer", "../../examples/launch", "../../examples/forwarder", "../../examples/sap_hauler"} {
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if text, err := os.ReadFile(dir + "/" + e.Name()); err == nil {
				files = append(files, string(text))
			}
		}
	}
	for _, text := range files {
		if run := check.File(source.New("t.hame", text), check.Options{}); run.Harness != nil {
			trial.Of(run.Facts)
		}
	}
}

// TestApart: every new wire of the feed side lies on a net that is measured
// against the return, and two nets in neighbouring cavities against each other.
func TestApart(t *testing.T) {
	for seed := range uint64(30) {
		plan, run := yardPlan(t, seed)
		n := run.Facts.Network
		tied := n.Tied()
		net := map[string]int{}
		for _, w := range run.Harness.Wires {
			net[w.Name] = tied[n.Elements[n.OfWire(w)].A]
		}
		grounded, pairs := map[int]bool{}, map[[2]int]bool{}
		for _, l := range plan.Lines {
			if parts := strings.Split(l.ID, ":"); l.Kind == trial.Isolation {
				grounded[net[parts[1]]] = grounded[net[parts[1]]] || parts[2] == "return"
				pairs[[2]int{net[parts[1]], net[parts[2]]}] = true
			}
		}
		for _, w := range run.Harness.Wires {
			probed := w.Ends[0].Terminal != nil || w.Ends[1].Terminal != nil
			if probed && !w.Existing && !n.Return(n.Elements[n.OfWire(w)].A) && !grounded[net[w.Name]] {
				t.Errorf("seed %d: %s is not measured against the return", seed, w.Name)
			}
		}
		for _, d := range run.Harness.Devices {
			if d.Kind.Name != "panel" {
				continue
			}
			last := -1
			for _, terminal := range d.Terminals {
				for _, w := range terminal.Wires {
					this := net[w.Name]
					if w.Existing || n.Return(terminal.Index) || d.Existing {
						continue
					}
					if last >= 0 && this != last && !pairs[[2]int{last, this}] && !pairs[[2]int{this, last}] {
						t.Errorf("seed %d: %s is not measured against what is beside it on %s", seed, w.Name, d.Name)
					}
					last = this
				}
			}
		}
	}
}
