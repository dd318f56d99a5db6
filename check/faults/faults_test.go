package faults_test

import (
	"math"
	"strings"
	"testing"

	"hame/check/faults"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/tables"
)

// built makes the network of a text.
func built(t testing.TB, text string) *network.Network {
	t.Helper()
	bound := harness.Bind(syntax.Parse(source.New("t.hame", text)), harness.Options{})
	for _, f := range bound.Findings {
		t.Logf("%s: %s", f.Rule, f.Message)
	}
	if bound.Harness == nil {
		t.Fatal("no harness")
	}
	return network.Build(bound.Harness)
}

// at is the only fault at a wire's end.
func at(t testing.TB, n *network.Network, wire string) faults.Fault {
	t.Helper()
	all := everyAt(t, n, wire)
	if len(all) != 1 {
		t.Fatalf("%d faults at %s", len(all), wire)
	}
	return all[0]
}

func everyAt(t testing.TB, n *network.Network, wire string) []faults.Fault {
	t.Helper()
	for _, w := range n.Harness.Wires {
		if w.Name == wire {
			return faults.Find(n).At(w)
		}
	}
	t.Fatalf("no wire %s", wire)
	return nil
}

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %.5g, want %.5g", what, got, want)
	}
}

// shelf is a lamp on a fused feed, all of it at 20 degC.
const shelf = `harness shelf { system 12 V }
zone room { ambient 20..20 degC }
place here in room
place there in room
supply battery main { at here; capacity 70 Ah; resistance 10 mohm; post M8 }
protection fuse f1 { at here; rating 10 A }
load led lamp { at there; draws 24 W }
wire w1 main.pos -> f1.in    2.5 mm2 1 m  { ends pin, pin }
wire w2 f1.out   -> lamp.pos 1.5 mm2 10 m { ends pin, pin }
wire w3 lamp.neg -> main.neg 1.5 mm2 10 m { ends pin, pin }
mode lit { charge 75 % }
`

// By hand: 2.5 mm2 has 7.98 and 1.5 mm2 13.3 mohm/m (IEC 60228 class 5), a
// crimp 0.3 mohm and a 10 A blade 7.7 mohm (typical, from memory); a rested
// battery 12.65 V when full and 12.45 V at 75 % (battery handbook). The loop to
// the lamp is 10 + 8.58 + 7.7 + 133.6 + 133.6 mohm, that to the fuse, with the
// battery's own post beside it, 10 + 8.58 mohm.
func TestAnArithmetic(t *testing.T) {
	n := built(t, shelf)
	lamp := at(t, n, "w2")
	near(t, "greatest at the lamp", lamp.MostA, 12.65/0.29348, 1e-4)
	near(t, "least at the lamp", lamp.LeastA, 12.45/0.29348, 1e-4)
	near(t, "feed", lamp.FeedOhm, 0.14988, 1e-4)
	near(t, "return", lamp.BackOhm, 0.1336, 1e-4)
	if len(lamp.Devices()) != 1 || lamp.Devices()[0].Name != "f1" || lamp.Limited || lamp.LeastLacks != nil {
		t.Errorf("%+v", lamp)
	}
	near(t, "greatest at the fuse", at(t, n, "w1").MostA, 12.65/0.01858, 1e-4)
	for i := range n.Elements {
		if n.Elements[i].Kind == network.Fuse {
			behind := faults.Find(n).Behind(i)
			near(t, "prospective behind the fuse", behind[0].MostA, 12.65/0.01858, 1e-4)
			if behind[0].Guarded() {
				t.Error("the device itself is no device on the way")
			}
		}
	}
	if all := everyAt(t, n, "w3"); len(all) != 0 {
		t.Errorf("a return has %d faults", len(all))
	}
}

// tree is a machine with a chassis, a plug, a switch and two branches.
const tree = `harness machine { system 12 V }
zone room { ambient -20..50 degC }
place here, there, far in room
supply battery main { at here; capacity 70 Ah; cranking 500 A; post M8 }
ground chassis frame { resistance 2 mohm }
ground stud g1 { at there; to frame; size M6 }
protection fuse f1 { at here; rating 40 A; family maxi }
protection panel p1 { at there; limit 60 A; feed stud M6; tabs 6.3; way 1 fuse 15 A; way 2 fuse 10 A }
switch toggle s1 { at there; rating 20 A }
join connector x1 { at there; ways 2 }
load heater bolted { at far; draws BOLTED at 12 V }
load heater other { at there; draws 0.001 A at 12 V }
wire w1 main.pos -> f1.in 10 mm2 0.2 m
wire w2 f1.out -> p1.feed 10 mm2 3 m
wire w3 p1.1 -> s1.in 2.5 mm2 1 m
wire w4 s1.out -> x1.female.1 2.5 mm2 2 m
wire w5 x1.male.1 -> bolted.pos 2.5 mm2 4 m
wire w6 bolted.neg -> g1 2.5 mm2 0.5 m
wire w7 p1.2 -> other.pos 1 mm2 1 m
wire w8 other.neg -> frame 1 mm2 1 m
wire w9 main.neg -> frame 16 mm2 0.5 m
mode on { closed s1; charge 60 % }
`

// The solver of the whole network, which knows nothing of shorts, must find the
// same loop where a load of 12 mohm stands in for one: cold and full that of the
// greatest current, hot and low that of the least.
func TestAgainstTheNetwork(t *testing.T) {
	bolted := built(t, strings.Replace(tree, "BOLTED", "1000 A", 1))
	short := at(t, built(t, strings.Replace(tree, "BOLTED", "5 A", 1)), "w5")
	var element int
	for _, w := range bolted.Harness.Wires {
		if w.Name == "w5" {
			element = bolted.OfWire(w)
		}
	}
	solver := states.NewSolver(bolted)
	position := states.OfMode(bolted.Harness.Modes[0])
	for _, corner := range []struct {
		at     states.Corner
		charge float64
		amps   float64
	}{{states.HotLow, 0.6, short.LeastA}, {states.ColdFull, 1, short.MostA}} {
		position.Corner, position.Charge = corner.at, corner.charge
		volts, _, _ := tables.OpenCircuitVolts(tables.Lead, 100*corner.charge, 26.7)
		loop := volts/solver.Solve(position).Amps(element) - 0.012
		near(t, corner.at.String(), corner.amps, volts/loop, 1e-3)
	}
	if names := short.Devices(); len(names) != 2 || names[0].Name != "f1" || names[1].Name != "p1.1" {
		t.Errorf("devices: %v", names)
	}
}
