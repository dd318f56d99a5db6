package states_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"hame/check/network"
	"hame/check/states"
)

// panel is n heaters of 12 W, each behind its own switch, on one trunk.
func panel(n int) string {
	var b strings.Builder
	b.WriteString(`
harness h { system 12 V }
zone warm { ambient 20..20 degC }
place here in warm
supply battery main { at here; capacity 200 Ah; resistance 1 mohm }
join bus b { at here; ways 400 }
ground chassis frame { resistance 0 mohm }
wire trunk main.pos -> b 95 mm2 0.1 m
wire back main.neg -> frame 95 mm2 0.1 m
`)
	for i := range n {
		fmt.Fprintf(&b, "switch toggle s%d { at here; rating 10 A }\nload heater h%d { at here; draws 12 W }\n", i, i)
		fmt.Fprintf(&b, "wire a%d b -> s%d.in 2.5 mm2 1 m\nwire b%d s%d.out -> h%d.pos 2.5 mm2 1 m\nwire c%d h%d.neg -> frame 2.5 mm2 1 m\n", i, i, i, i, i, i, i)
	}
	return b.String()
}

// Heaters on one trunk draw most in all when all are on, and each by itself
// when it is alone: both have a closed form, and both must be found among
// 2^40 settings, the first exactly and the second by a bound close above.
func TestManySwitchesOnOneTrunk(t *testing.T) {
	s := solver(t, panel(40))
	v := states.Find(s, nil)
	if v.Method != "bound" {
		t.Errorf("method %s", v.Method)
	}
	ohm := func(name string) float64 { return s.Network.Elements[element(t, s, name, network.Wire)].Ohm }
	contact := s.Network.Elements[element(t, s, "s0", network.Contact)].Ohm
	branch := 12 + ohm("a0") + ohm("b0") + ohm("c0") + contact
	shared := 0.001 + ohm("trunk") + ohm("back")
	const full = 12.7 // greatest rested volts of a lead battery, at most
	alone := full / (branch + shared)
	w := v.Worst[element(t, s, "a0", network.Wire)]
	if w.Amps < 0.98*alone || w.Amps > 1.03*alone {
		t.Errorf("one heater: %g A, want about %g", w.Amps, alone)
	}
	all := full / (branch/40 + shared)
	w = v.Worst[element(t, s, "trunk", network.Wire)]
	if w.Amps < 0.98*all || w.Amps > 1.06*all {
		t.Errorf("trunk: %g A, want about %g", w.Amps, all)
	}
	if got := len(w.At.Figure().Closed); got != 40 {
		t.Errorf("the trunk's worst has %d switches closed", got)
	}
}

// Where everything is a resistance, closing one switch more never lessens what a
// trunk carries, so the position with all closed is its worst: the bound must
// be that and no more, however weak the battery and however many the switches.
func TestTrunksOfResistancesAreExact(t *testing.T) {
	for _, n := range []int{9, 12, 100} {
		text := strings.Replace(panel(n), "resistance 1 mohm", "resistance 60 mohm", 1)
		s := solver(t, text)
		v := states.FindBounded(s, nil)
		ohm := func(name string) float64 { return s.Network.Elements[element(t, s, name, network.Wire)].Ohm }
		branch := 12 + ohm("a0") + ohm("b0") + ohm("c0") + s.Network.Elements[element(t, s, "s0", network.Contact)].Ohm
		volts := 0.0
		for _, e := range s.Network.Elements {
			if e.Kind == network.Source {
				p := s.Solve(states.Position{Key: "off", Engine: "off", Charge: 1})
				volts = p.Across(element(t, s, "main", network.Source)) // nothing is on
			}
		}
		want := volts / (branch/float64(n) + 0.060 + ohm("trunk") + ohm("back"))
		for _, name := range []string{"trunk", "back"} {
			if w := v.Worst[element(t, s, name, network.Wire)]; w.Bound || w.Amps < want*(1-1e-6) || w.Amps > want*(1+1e-6) {
				t.Errorf("%d heaters: %s carries %.6g A (bound: %v), and by Ohm's law %.6g A", n, name, w.Amps, w.Bound, want)
			}
		}
	}
}

// The throws of a switch are never on together: a trunk carries the greater.
func TestThrowsDoNotAdd(t *testing.T) {
	s := solver(t, panel(12)+`
switch toggle two { at here; rating 30 A; throws 2 }
load heater low { at here; draws 120 W }
load heater high { at here; draws 240 W }
wire t1 b -> two.in 6 mm2 1 m
wire t2 two.out1 -> low.pos 6 mm2 1 m
wire t3 two.out2 -> high.pos 6 mm2 1 m
wire t4 low.neg -> frame 6 mm2 1 m
wire t5 high.neg -> frame 6 mm2 1 m
`)
	v := states.FindBounded(s, nil)
	if w := v.Worst[element(t, s, "t1", network.Wire)]; w.Amps < 20 || w.Amps > 22 {
		t.Errorf("%g A, want that of 240 W alone", w.Amps)
	}
}

func TestSurveyIsTheSameEveryTime(t *testing.T) {
	for _, hands := range []int{4, 30} {
		var runs [2][]any
		for i := range runs {
			s := solver(t, generate(3, hands, true))
			v := states.Find(s, func(p *states.Point) { runs[i] = append(runs[i], *p.Position.Figure()) })
			for _, w := range v.Worst {
				runs[i] = append(runs[i], w.Amps, w.AtoB, w.BtoA, w.Bound)
				if w.Amps > 0 {
					runs[i] = append(runs[i], *w.At.Figure())
				}
			}
		}
		if !reflect.DeepEqual(runs[0], runs[1]) {
			t.Errorf("%d switches: two runs differ", hands)
		}
	}
}

// Every switch is seen both open and closed, and every pair of independent ones
// in all four ways, though not all positions are solved.
func TestPairsAreCovered(t *testing.T) {
	s := solver(t, panel(16))
	pairs := map[[2]int]int{}
	states.Find(s, func(p *states.Point) {
		on := map[string]bool{}
		for _, name := range p.Position.Figure().Closed {
			on[name] = true
		}
		for i := range 16 {
			for j := range i {
				way := 0
				if on[fmt.Sprintf("s%d", i)] {
					way |= 1
				}
				if on[fmt.Sprintf("s%d", j)] {
					way |= 2
				}
				pairs[[2]int{i, j}] |= 1 << way
			}
		}
	})
	for pair, ways := range pairs {
		if ways != 15 {
			t.Errorf("switches %v met in ways %04b", pair, ways)
		}
	}
}
