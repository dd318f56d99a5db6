package circuit_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"hame/check/circuit"
)

const (
	plainKinds = 19 // of wildBranch: all but converters
	allKinds   = 20
)

// wild is a random network of everything anywhere: loads in series, sources
// against each other, diodes either way, converters back to front.
func wild(r *rand.Rand, kinds int) (*circuit.Net, *circuit.State) {
	nodes, branches := 2+r.IntN(20), 3+r.IntN(50)
	b := circuit.NewBuilder()
	for range nodes {
		b.Node()
	}
	for range branches {
		a, c := circuit.Node(r.IntN(nodes)), circuit.Node(r.IntN(nodes))
		wildBranch(b, r, r.IntN(kinds), a, c, nodes)
	}
	n := b.Compile()
	s := n.State()
	for i := range branches {
		if r.IntN(10) == 0 {
			s.Switch(circuit.Branch(i), r.IntN(2) == 0)
		}
	}
	return n, s
}

func wildBranch(b *circuit.Builder, r *rand.Rand, k int, a, c circuit.Node, nodes int) {
	switch {
	case k < 8:
		b.Resistor(a, c, math.Pow(10, 5*r.Float64()-3))
	case k < 9:
		b.Contact(a, c, 0.002)
	case k < 11:
		b.Source(a, c, battery(12+r.Float64(), 0.005+0.02*r.Float64()))
	case k < 12:
		b.Source(a, c, circuit.Source{Volts: 14.2, Ohm: 0.005, MostOut: 60 * r.Float64()})
	case k < 14:
		b.Power(a, c, 60*r.Float64(), 4+6*r.Float64())
	case k < 15:
		b.Current(a, c, 10*r.Float64(), 12, 0)
	case k < 16:
		b.Current(a, c, 10*r.Float64(), 12, 1.5)
	case k < 17:
		b.Bulb(a, c, 60*r.Float64(), 12)
	case k < plainKinds:
		b.Diode(a, c, 0.7, 0.01)
	default:
		b.Converter(a, c, circuit.Node(r.IntN(nodes)), circuit.Node(r.IntN(nodes)), circuit.Converter{
			Volts: 24 * r.Float64(), Ohm: 0.02, MostOut: 10, Efficiency: 0.9, LeastIn: 9,
		})
	}
}

// However senseless a network without converters, it has a stable point, and
// that is found: its co-content has a least value.
func TestWildWithoutConvertersAlwaysSolves(t *testing.T) {
	for seed := range uint64(20000) {
		n, s := wild(rand.New(rand.NewPCG(seed, 4)), plainKinds)
		p, err := n.Solve(s)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if !(p.Residual() < 1e-9) {
			t.Fatalf("seed %d: residual %g", seed, p.Residual())
		}
	}
}

// Converters that feed one another back to front may have no steady point. Then
// the error says which, and never is a wrong answer given or a number lost.
func TestWildWithConvertersAnswersOrNames(t *testing.T) {
	failed := 0
	const seeds = 10000
	for seed := range uint64(seeds) {
		n, s := wild(rand.New(rand.NewPCG(seed, 4)), allKinds)
		p, err := n.Solve(s)
		var collapse *circuit.CollapseError
		switch {
		case errors.As(err, &collapse):
			failed++
			if len(collapse.Branches) == 0 {
				t.Errorf("seed %d: nothing is named: %v", seed, err)
			}
		case err != nil:
			t.Fatalf("seed %d: %v", seed, err)
		case !(p.Residual() < 1e-9):
			t.Fatalf("seed %d: residual %g", seed, p.Residual())
		}
	}
	if failed > seeds/50 {
		t.Errorf("%d of %d unsolved", failed, seeds)
	}
	t.Logf("%d of %d unsolved", failed, seeds)
}

// Networks of the shape that vehicles have, in random positions.
func TestMachinesSolveInFewSteps(t *testing.T) {
	most := 0
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 5))
		m := newMachine(r, 5+r.IntN(300))
		p := solveState(t, m.b.Compile(), func(s *circuit.State) {
			for _, c := range m.contacts {
				s.Switch(c, r.IntN(2) == 0)
			}
		})
		most = max(most, p.Iterations())
	}
	for _, branches := range sizes {
		m := newMachine(seeded(1), branches)
		p := solveState(t, m.b.Compile(), m.all)
		most = max(most, p.Iterations())
	}
	if most >= 15 {
		t.Errorf("%d steps, want fewer than 15", most)
	}
	t.Logf("at most %d steps", most)
}
