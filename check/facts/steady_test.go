package facts_test

import (
	"math"
	"testing"
)

// TestSteadyLeavesCrankingOut: the battery's lead carries the starter's 180 A while
// the engine cranks, and the lamp's current lastingly (54 W at about 12.5 V).
func TestSteadyLeavesCrankingOut(t *testing.T) {
	f := worked(t, `harness crank { system 12 V; wire gxl }
supply battery main { capacity 70 Ah; cranking 600 A }
load starter cranker { draws 180 A }
load led lamp        { draws 54 W; least 9 V }
join stud s          { size M8 }
wire w1 main.pos    -> s           35 mm2 sgx red 0.3 m
wire w2 s           -> cranker.pos 35 mm2 sgx red 0.3 m
wire w3 cranker.neg -> main.neg    35 mm2 sgx black 0.3 m
wire w4 s           -> lamp.pos    4 mm2 red 1 m
wire w5 lamp.neg    -> main.neg    4 mm2 black 1 m
mode start { key start; engine cranking }
mode lit   { key on }
`)
	lead := f.Network.OfWire(f.Harness.Wires[0])
	const lampA, starterA = 54 / 12.5, 180
	if got := f.Survey.Worst[lead].Amps; got < starterA {
		t.Errorf("the survey's worst is %.1f A", got)
	}
	steady := f.Steady(lead)
	if math.Abs(steady.Amps-lampA) > 0.2 || steady.At == nil || steady.At.Engine == "cranking" {
		t.Errorf("%.2f A lastingly, want about %.2f A", steady.Amps, lampA)
	}
	starter := f.Network.OfWire(f.Harness.Wires[1])
	if got := f.Steady(starter); got.Amps != 0 || got.At != nil {
		t.Errorf("the starter's own cable has %.2f A lastingly", got.Amps)
	}
	lamp := f.Network.OfWire(f.Harness.Wires[3])
	if f.Steady(lamp) != f.Survey.Worst[lamp] && f.Survey.Worst[lamp].At.Engine != "cranking" {
		t.Error("what is not worst while cranking is the survey's own")
	}
}
