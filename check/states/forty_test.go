package states_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
)

// Forty switches have 2^40 settings and more, and nobody can count them out. The truth
// is known there in three ways. By a closed form: TestManySwitchesOnOneTrunk. Where ten
// machines of four switches share no more than a chassis, by counting out each of them
// alone: TestFortySwitchesOfAFleet. And where all hangs together, from below: whatever
// a solved position makes flow can flow, and a climber looks for the worst of them:
// TestFortySwitchesOfOneMachine.

// fewPoints is what a survey of forty switches may solve to be called fast: a count,
// for time is another one on every machine.
const fewPoints = 150

var declared = regexp.MustCompile(`(?m)^(?:zone|place|wire|(?:supply|protection|switch|load|join) \w+) (\w+)`)

const fleetHead = "harness h { system 12 V }\nground chassis frame { resistance 0 mohm }\nmode still { charge 60 % }\n"

// ofFleet is a generated machine of four switches with a number on each of its names.
// The chassis has no resistance, so that nobody else on it feels what flows there; a
// mode goes, for its charge would be everybody's; and a tap says whose it is.
func ofFleet(seed uint64, wild bool, number int) string {
	var kept []string
	for _, line := range strings.Split(generate(seed, 4, wild), "\n") {
		word, _, _ := strings.Cut(line, " ")
		if word != "harness" && word != "ground" && word != "mode" {
			kept = append(kept, strings.Replace(line, "tap lamps { at here;", "tap lamps { at here; of main;", 1))
		}
	}
	text := strings.Join(kept, "\n")
	names := map[string]bool{}
	for _, found := range declared.FindAllStringSubmatch(text, -1) {
		names[found[1]] = true
	}
	return regexp.MustCompile(`\b[a-z]\w*\b`).ReplaceAllStringFunc(text, func(word string) string {
		if names[word] {
			return fmt.Sprintf("%s_%d", word, number)
		}
		return word
	})
}

// called is an element by name, kind and place among those of the same.
type called struct {
	name string
	kind network.Kind
	nth  int
}

func callsOf(s *states.Solver) []called {
	nth := map[called]int{}
	list := make([]called, len(s.Network.Elements))
	for i, e := range s.Network.Elements {
		c := called{e.Name, e.Kind, 0}
		list[i] = called{e.Name, e.Kind, nth[c]}
		nth[c]++
	}
	return list
}

func TestFortySwitchesOfAFleet(t *testing.T) {
	const machines = 10
	for seed := range uint64(3) {
		whole, truth := fleetHead, map[called]float64{}
		for m := range machines {
			text := ofFleet(100*seed+uint64(m), seed%2 == 1, m)
			whole += text
			one := solver(t, fleetHead+text)
			names := callsOf(one)
			for i, amps := range brute(t, one) {
				truth[names[i]] = amps
			}
		}
		s := solver(t, whole)
		v, points := surveyed(t, s)
		for i, name := range callsOf(s) {
			amps, known := truth[name]
			if w := v.Worst[i]; !known || w.Amps < amps*(1-1e-6)-1e-6 {
				t.Errorf("seed %d: %s: bound %g A, but %g A can flow (known: %v)", seed, name.name, w.Amps, amps, known)
			}
		}
		t.Logf("seed %d: %d elements, %g settings, %d points", seed, len(v.Worst), v.Covered, points)
	}
}

// surveyed surveys forty switches, and fails where that solves too many points.
func surveyed(t *testing.T, s *states.Solver) (*states.Survey, int) {
	t.Helper()
	hands, _ := handsOf(s)
	points := 0
	v := states.Find(s, func(*states.Point) { points++ })
	if len(hands) < 40 || v.Method != "bound" || points > fewPoints {
		t.Errorf("%d switches, method %s, %d points", len(hands), v.Method, points)
	}
	return v, points
}

// handsOf lists what a hand may throw, and how far.
func handsOf(s *states.Solver) ([]*harness.Device, map[*harness.Device]int) {
	var list []*harness.Device
	throws := map[*harness.Device]int{}
	for _, e := range s.Network.Elements {
		if e.Kind == network.Contact && e.Gate.By == network.Hand {
			if throws[e.Device] == 0 {
				list = append(list, e.Device)
			}
			throws[e.Device] = max(throws[e.Device], e.Gate.Throw)
		}
	}
	return list, throws
}

func TestFortySwitchesOfOneMachine(t *testing.T) {
	for seed := range uint64(6) {
		s := solver(t, generate(seed, 40, seed%2 == 1))
		v, _ := surveyed(t, s)
		witnesses, nearest := 0, 0.0
		climbAll(s, rand.New(rand.NewPCG(seed, 17)), func(p *states.Point) {
			witnesses++
			for i, w := range v.Worst {
				amps := math.Abs(p.Amps(i))
				if w.Amps < amps*(1-1e-6)-1e-6 {
					t.Errorf("seed %d: %s: bound %g A, but %g A flow: %+v", seed, s.Network.Elements[i].Name, w.Amps, amps, *p.Position.Figure())
				} else if amps > 0.1 {
					nearest = math.Max(nearest, amps/w.Amps)
				}
			}
		})
		t.Logf("seed %d: %d elements, %d witnesses, nearest to a bound %.4f of it", seed, len(v.Worst), witnesses, nearest)
	}
}

// climbAll shows witness every position that it tries while it looks for the greatest
// current in one element after the other.
func climbAll(s *states.Solver, r *rand.Rand, witness func(*states.Point)) {
	hands, throws := handsOf(s)
	charge := 1.0
	for _, m := range s.Network.Harness.Modes {
		charge = min(charge, m.Charge)
	}
	for range 12 {
		p := states.Position{Charge: 1, Throws: map[*harness.Device]int{}}
		keys := [][2]string{{"off", "off"}, {"acc", "off"}, {"on", "off"}, {"on", "idle"}, {"on", "running"}}[r.IntN(5)]
		p.Key, p.Engine = keys[0], keys[1]
		if r.IntN(2) == 0 {
			p.Corner, p.Charge = states.HotLow, charge
		}
		for _, d := range hands {
			p.Throws[d] = r.IntN(throws[d] + 1)
		}
		climb(s, p, r.IntN(len(s.Network.Elements)), hands, throws, witness)
	}
}

// climb throws one switch after the other to where the element carries the most, until
// no single one helps.
func climb(s *states.Solver, p states.Position, element int, hands []*harness.Device, throws map[*harness.Device]int, witness func(*states.Point)) {
	most := -1.0
	for better := true; better; {
		better = false
		for _, d := range hands {
			stays := p.Throws[d]
			for throw := range throws[d] + 1 {
				p.Throws[d] = throw
				point := s.Solve(p)
				witness(point)
				if amps := math.Abs(point.Amps(element)); amps > most*(1+1e-9)+1e-9 {
					most, stays, better = amps, throw, true
				}
			}
			p.Throws[d] = stays
		}
	}
}
