package states_test

import (
	"math"
	"testing"

	"hame/check/states"
	"hame/lang/harness"
)

// brute solves every position there is by counting, without asking the survey
// what may be left out, and gives the greatest current of each element.
func brute(t *testing.T, s *states.Solver) []float64 {
	t.Helper()
	devices, throws := handsOf(s)
	most := make([]float64, len(s.Network.Elements))
	settings := 1
	for _, d := range devices {
		settings *= throws[d] + 1
	}
	charge := 1.0
	for _, m := range s.Network.Harness.Modes {
		charge = min(charge, m.Charge)
	}
	for _, keys := range [][2]string{{"off", "off"}, {"acc", "off"}, {"on", "off"}, {"on", "idle"}, {"on", "running"}} {
		for i := range settings {
			for _, p := range []states.Position{{Corner: states.ColdFull, Charge: 1}, {Corner: states.HotLow, Charge: charge}} {
				p.Key, p.Engine, p.Throws = keys[0], keys[1], map[*harness.Device]int{}
				rest := i
				for _, d := range devices {
					p.Throws[d] = rest % (throws[d] + 1)
					rest /= throws[d] + 1
				}
				point := s.Solve(p)
				for k := range most {
					most[k] = math.Max(most[k], math.Abs(point.Amps(k)))
				}
			}
		}
	}
	return most
}

// Nothing that any position makes flow may lie above the bound; and on plain
// harnesses the bound is not far above it.
func TestBoundIsNeverBelowTheTruth(t *testing.T) {
	for _, wild := range []bool{false, true} {
		worst, sum, count := 0.0, 0.0, 0
		for seed := range uint64(120) {
			s := solver(t, generate(seed, 3+int(seed%4), wild))
			truth := brute(t, s)
			v := states.FindBounded(s, nil)
			for i, w := range v.Worst {
				const alike = 1e-6
				e := &s.Network.Elements[i]
				if w.Amps < truth[i]*(1-alike)-alike {
					t.Errorf("wild %v seed %d: %s %d: bound %g A, but %g A can flow", wild, seed, e.Name, e.Kind, w.Amps, truth[i])
				}
				if truth[i] > 0.1 {
					over := w.Amps/truth[i] - 1
					worst, sum, count = math.Max(worst, over), sum+over, count+1
				}
			}
		}
		t.Logf("wild %v: bound above truth by %.1f %% in the mean, %.0f %% at most", wild, 100*sum/float64(count), 100*worst)
	}
}

// Where every position is solved the survey finds what counting finds. Switches
// between dead nodes are left out by design: what hangs on them only carries
// the millivolts between two return points round, less than 1e-4 of the rest.
func TestAllPositionsAreAll(t *testing.T) {
	for seed := range uint64(60) {
		s := solver(t, generate(seed, 3, seed%2 == 0))
		truth := brute(t, s)
		v := states.Find(s, nil)
		if v.Method != "all" {
			t.Fatalf("seed %d: %s", seed, v.Method)
		}
		for i, w := range v.Worst {
			if w.Amps < truth[i]*(1-1e-4)-1e-6 {
				t.Errorf("seed %d: %s: %g A, but %g A can flow", seed, s.Network.Elements[i].Name, w.Amps, truth[i])
			}
		}
	}
}

// On the examples the bound lies above the truth, and in the mean by no more
// than a tenth.
func TestBoundOnTheExamples(t *testing.T) {
	for _, name := range []string{"sap_hauler", "launch", "trailer"} {
		s := solver(t, example(t, name))
		truth := brute(t, s)
		over, count := 0.0, 0.0
		for i, w := range states.FindBounded(s, nil).Worst {
			if w.Amps < truth[i]*(1-1e-6)-1e-6 {
				t.Errorf("%s: %s: bound %g A, but %g A can flow", name, s.Network.Elements[i].Name, w.Amps, truth[i])
			}
			if truth[i] > 0.1 {
				over, count = over+w.Amps/truth[i]-1, count+1
			}
		}
		if over > 0.1*count {
			t.Errorf("%s: the bound is %.0f %% above the truth in the mean", name, 100*over/count)
		}
		t.Logf("%s: bound above truth by %.1f %% in the mean", name, 100*over/count)
	}
}
