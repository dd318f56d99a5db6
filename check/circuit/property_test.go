package circuit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"hame/check/circuit"
)

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 9)) }

// drawMachine is a machine with about half of its contacts closed.
func drawMachine(t *rapid.T) (*machine, *circuit.Net, *circuit.State) {
	m := newMachine(seeded(rapid.Uint64().Draw(t, "seed")), rapid.IntRange(5, 200).Draw(t, "branches"))
	n := m.b.Compile()
	s := n.State()
	for _, c := range m.contacts {
		s.Switch(c, rapid.Bool().Draw(t, "closed"))
	}
	return m, n, s
}

func mustSolve(t *rapid.T, n *circuit.Net, s *circuit.State) *circuit.Point {
	p, err := n.Solve(s)
	if err != nil {
		t.Fatalf("solve: %v", err)
	}
	return p
}

// Energy is kept: the powers of all branches sum to nothing (Tellegen).
func TestEnergyInIsEnergyOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n, s := drawMachine(t)
		p := mustSolve(t, n, s)
		sum, size := 0.0, 0.0
		for i := range n.Branches() {
			b := circuit.Branch(i)
			watts := p.Drop(b) * p.Current(b)
			size += math.Abs(watts)
			if m.gives(b) {
				watts = -watts
			}
			sum += watts
		}
		if math.Abs(sum) > 1e-9*size {
			t.Fatalf("%g W of %g are lost", sum, size)
		}
	})
}

// In a network of resistances whose loads all return to the source's own pole one more
// load raises no other's volts. (Where they share a return with resistance it may: it
// lifts that return, so that others there draw less, and who has his own return gets
// what they leave.)
func TestAnotherLoadRaisesNoVolts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := seeded(rapid.Uint64().Draw(t, "seed"))
		b := circuit.NewBuilder()
		neg, pos := b.Node(), b.Node()
		b.Source(pos, neg, battery(12.6, 0.01))
		nodes := []circuit.Node{pos}
		for range rapid.IntRange(1, 40).Draw(t, "wires") {
			v := b.Node()
			b.Resistor(nodes[r.IntN(len(nodes))], v, 0.001+r.Float64())
			b.Resistor(v, neg, 1+100*r.Float64())
			nodes = append(nodes, v)
		}
		more := b.Contact(nodes[r.IntN(len(nodes))], neg, 0.01+r.Float64())
		n := b.Compile()
		s := n.State()
		before := mustSolve(t, n, s)
		s.Switch(more, true)
		after := mustSolve(t, n, s)
		for _, v := range nodes {
			if after.Volts(v) > before.Volts(v)+1e-12 {
				t.Fatalf("node %d rises from %.15g to %.15g V", v, before.Volts(v), after.Volts(v))
			}
		}
	})
}

// A linear network scales: k times the volts give k times the amperes, and k
// times the ohms as well give the same amperes.
func TestScalingOfALinearNetwork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := randomLinear(seeded(rapid.Uint64().Draw(t, "seed")), rapid.IntRange(2, 40).Draw(t, "nodes"), 4)
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		plain := mustSolve(t, l.net, l.net.State())
		volts, both := l.net.State(), l.net.State()
		for i, r := range l.ohm {
			b := circuit.Branch(i)
			if math.IsNaN(l.volts[i]) {
				both.SetOhm(b, k*r)
				continue
			}
			volts.SetSource(b, battery(k*l.volts[i], r))
			both.SetSource(b, battery(k*l.volts[i], k*r))
		}
		scaled, kept := mustSolve(t, l.net, volts), mustSolve(t, l.net, both)
		largest := 0.0
		for i := range l.ohm {
			largest = math.Max(largest, math.Abs(plain.Current(circuit.Branch(i))))
		}
		for i := range l.ohm {
			amps := plain.Current(circuit.Branch(i))
			near := 1e-9*math.Abs(amps) + 1e-12*largest
			if math.Abs(scaled.Current(circuit.Branch(i))-k*amps) > k*near {
				t.Fatalf("branch %d: %g A, want %g", i, scaled.Current(circuit.Branch(i)), k*amps)
			}
			if math.Abs(kept.Current(circuit.Branch(i))-amps) > near {
				t.Fatalf("branch %d: %g A, want %g", i, kept.Current(circuit.Branch(i)), amps)
			}
		}
	})
}

// FuzzSolve holds that any network is answered with balance or an error.
func FuzzSolve(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed, 0.01)
	}
	f.Fuzz(func(t *testing.T, seed uint64, x float64) {
		r := seeded(seed)
		n, s := wild(r, allKinds)
		s.SetOhm(0, x)
		s.SetPower(1, circuit.Power{Watts: x, LeastVolts: r.Float64()})
		s.SetSource(2, circuit.Source{Volts: math.Mod(x, 100), Ohm: x, MostOut: x, MostIn: r.Float64()})
		p, err := n.Solve(s)
		if err == nil && !(p.Residual() < 1e-9) {
			t.Fatalf("residual %g", p.Residual())
		}
	})
}
