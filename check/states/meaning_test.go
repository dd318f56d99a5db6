package states_test

import (
	"math"
	"reflect"
	"testing"

	"hame/check/network"
	"hame/check/states"
)

func element(t testing.TB, s *states.Solver, name string, kind network.Kind) int {
	t.Helper()
	for i, e := range s.Network.Elements {
		if e.Name == name && e.Kind == kind {
			return i
		}
	}
	t.Fatalf("no element %s of kind %d", name, kind)
	return -1
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %g, want %g ± %g", what, got, want, tolerance)
	}
}

func at(key, engine string) states.Position {
	return states.Position{Key: key, Engine: engine, Corner: states.AsStated, Charge: 0.8}
}

const machineText = `
harness h { system 12 V }
supply battery main { capacity 70 Ah; resistance 10 mohm; standby 8 mA }
supply alternator alt { output 55 A; idle 20 A; volts 14.2 V; already 6 A }
supply tap lamps { behind fuse 15 A; carries 4 A; live on; gauge 1.5 mm2; run 1 m }
load heater stove { draws 480 W }
load starter crank { draws 200 A }
load module radio { draws 12 W; standby 5 mA }
ground chassis frame { resistance 0 mohm }
wire w1 main.neg -> frame 35 mm2 0.1 m
wire w2 alt.neg -> frame 35 mm2 0.1 m
wire w3 alt.pos -> main.pos 35 mm2 0.1 m
wire w4 main.pos -> stove.pos 35 mm2 0.1 m
wire w5 stove.neg -> frame 35 mm2 0.1 m
wire w6 main.pos -> crank.pos 35 mm2 0.1 m
wire w7 crank.neg -> frame 35 mm2 0.1 m
wire w8 main.pos -> radio.pos 1.5 mm2 1 m
wire w9 radio.neg -> frame 1.5 mm2 1 m
`

// What each setting of the key and engine means, as the language says it.
func TestKeyAndEngine(t *testing.T) {
	s := solver(t, machineText)
	amps := func(p *states.Point, name string, kind network.Kind) float64 {
		return p.Amps(element(t, s, name, kind))
	}
	off, on := s.Solve(at("off", "off")), s.Solve(at("on", "off"))
	idle, running := s.Solve(at("on", "idle")), s.Solve(at("on", "running"))
	crank := s.Solve(at("start", "cranking"))
	near(t, "standby of the machine, key off", amps(off, "main standby", network.Load), 0.008, 1e-9)
	near(t, "standby of the machine, key on", amps(on, "main standby", network.Load), 0, 0)
	near(t, "standby of the radio", amps(off, "radio", network.Load), 0.005, 1e-6)
	near(t, "radio on", amps(on, "radio", network.Load)*on.Across(element(t, s, "radio", network.Load)), 12, 1e-6)
	near(t, "alternator, engine off", amps(on, "alt", network.Source), 0, 0)
	near(t, "alternator at idle", amps(idle, "alt", network.Source), 20, 1e-6)
	near(t, "already, engine off", amps(on, "alt already", network.Load), 0, 0)
	near(t, "already, engine on", amps(running, "alt already", network.Load), 6, 1e-6)
	near(t, "starter, engine running", amps(running, "crank", network.Load), 0, 0)
	near(t, "starter, cranking", amps(crank, "crank", network.Load), 200, 1e-6)
	near(t, "volts while cranking", crank.Across(element(t, s, "main", network.Source)), 8, 0.05)
	near(t, "tap, key off", amps(off, "lamps carries", network.Load), 0, 1e-6)
	near(t, "tap, key on", amps(on, "lamps carries", network.Load), 4, 1e-6)
	near(t, "tap, starting", amps(crank, "lamps carries", network.Load), 0, 1e-6)
	// What the alternator gives at its limit and the loads do not take charges
	// the battery; what they take beyond comes from it.
	loads := func(p *states.Point) (sum float64) {
		for i, e := range s.Network.Elements {
			if e.Kind == network.Load {
				sum += p.Amps(i)
			}
		}
		return sum
	}
	near(t, "battery at idle", amps(idle, "main", network.Source), loads(idle)-20, 1e-6)
	if amps(running, "main", network.Source) > 0 {
		t.Errorf("the battery gives %g A while the alternator has enough", amps(running, "main", network.Source))
	}
}

// A battery that accepts 0.2 of its capacity takes 14 A of an alternator with
// plenty, not what its resistance would let in.
func TestBatteryTakesNoMoreThanItAccepts(t *testing.T) {
	s := solver(t, `
harness h { system 12 V }
supply battery main { capacity 70 Ah; resistance 5 mohm }
supply alternator alt { output 90 A; idle 40 A; volts 14.2 V }
wire w1 alt.pos -> main.pos 35 mm2 0.1 m
wire w2 alt.neg -> main.neg 35 mm2 0.1 m
`)
	p := s.Solve(at("on", "running"))
	near(t, "charge", p.Amps(element(t, s, "main", network.Source)), -14, 1e-6)
}

// One loop of battery, wire and heater: Ohm's law.
func TestOneLoop(t *testing.T) {
	s := solver(t, `
harness h { system 12 V }
zone warm { ambient 20..20 degC }
place here in warm
supply battery main { at here; capacity 70 Ah; resistance 10 mohm }
load heater stove { at here; draws 120 W }
wire w1 main.pos -> stove.pos 2.5 mm2 5 m
wire w2 stove.neg -> main.neg 2.5 mm2 5 m
`)
	p := s.Solve(at("on", "off"))
	open := p.Across(element(t, s, "main", network.Source)) + 0.010*p.Amps(element(t, s, "main", network.Source))
	ohm := 0.010 + 1.2 + s.Network.Elements[element(t, s, "w1", network.Wire)].Ohm + s.Network.Elements[element(t, s, "w2", network.Wire)].Ohm
	near(t, "amps", p.Amps(element(t, s, "stove", network.Load)), open/ohm, 1e-9)
}

const relayHead = `
harness h { system 12 V }
supply battery main { capacity 70 Ah }
ground chassis frame
wire m main.neg -> frame 16 mm2 1 m
`

// A coil fed through its own rest contact can neither stay in nor out.
func TestBuzzerNeverSettles(t *testing.T) {
	s := solver(t, relayHead+`
switch relay k { contacts 30 A; coil 90 ohm; form change }
wire w1 main.pos -> k.30 2.5 mm2 1 m
wire w2 k.87a -> k.86 1.5 mm2 1 m
wire w3 k.85 -> frame 1.5 mm2 1 m
`)
	coil := element(t, s, "k", network.Load)
	if p := s.Solve(at("on", "off")); !reflect.DeepEqual(p.Unsettled, []int{coil}) {
		t.Errorf("unsettled %v, want the coil %d", p.Unsettled, coil)
	}
}

// Two relays each of which cuts the other off: whichever is in keeps the other
// out, so one wins and all is at rest.
func TestOneOfTwoRelaysWins(t *testing.T) {
	s := solver(t, relayHead+`
switch relay a { contacts 30 A; coil 90 ohm; form change }
switch relay b { contacts 30 A; coil 90 ohm; form change }
wire w1 main.pos -> a.30 2.5 mm2 1 m
wire w2 main.pos -> b.30 2.5 mm2 1 m
wire w3 a.87a -> b.86 1.5 mm2 1 m
wire w4 b.87a -> a.86 1.5 mm2 1 m
wire w5 a.85 -> frame 1.5 mm2 1 m
wire w6 b.85 -> frame 1.5 mm2 1 m
`)
	p := s.Solve(at("on", "off"))
	a, b := element(t, s, "a", network.Load), element(t, s, "b", network.Load)
	if len(p.Unsettled) > 0 || p.In[a] == p.In[b] {
		t.Errorf("in %v and %v, unsettled %v", p.In[a], p.In[b], p.Unsettled)
	}
}

// A relay that holds itself stays in when the push is let go, and the survey
// sees that.
func TestLatchIsSeenHeld(t *testing.T) {
	s := solver(t, relayHead+`
switch push p { rating 10 A }
switch relay k { contacts 30 A; coil 90 ohm }
load bulb lamp { draws 55 W }
wire w1 main.pos -> p.in 1.5 mm2 1 m
wire w2 p.out -> k.86 1.5 mm2 1 m
wire w3 k.85 -> frame 1.5 mm2 1 m
wire w4 main.pos -> k.30 2.5 mm2 1 m
wire w5 k.87 -> k.86 1.5 mm2 1 m
wire w6 k.87 -> lamp.pos 2.5 mm2 1 m
wire w7 lamp.neg -> frame 2.5 mm2 1 m
`)
	lamp := element(t, s, "lamp", network.Load)
	held := false
	states.Find(s, func(p *states.Point) {
		held = held || len(p.Position.Figure().Closed) == 0 && p.Amps(lamp) > 4
	})
	if !held {
		t.Error("no position with the push open and the lamp lit")
	}
}
