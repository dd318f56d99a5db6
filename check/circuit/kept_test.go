package circuit_test

import (
	"testing"

	"hame/check/circuit"
)

// A state that goes on and on, keeping answers, comes to the bits of one that
// has seen nothing before.
func TestKeptAnswersAreThoseOfAFreshState(t *testing.T) {
	again := 0
	for seed := range uint64(40) {
		r := seeded(seed)
		m := newMachine(r, 60)
		n := m.b.Compile()
		s := n.State()
		branches := append(append([]circuit.Branch{m.battery}, m.contacts...), m.loads...)
		var last *circuit.Point
		for range 60 {
			s.Switch(branches[r.IntN(len(branches))], r.IntN(3) > 0)
			if r.IntN(10) == 0 {
				s.SetPower(m.loads[r.IntN(len(m.loads))], circuit.Power{Watts: 5 + 5*r.Float64(), LeastVolts: 9})
			}
			p, err := n.Answer(s)
			fresh, wrong := n.Solve(s.Clone())
			if (err == nil) != (wrong == nil) {
				t.Fatalf("seed %d: %v, afresh %v", seed, err, wrong)
			}
			if err != nil {
				continue
			}
			if p == last {
				again++
			}
			last = p
			alike(t, n, p, fresh)
		}
	}
	if again == 0 {
		t.Error("no answer was used twice")
	}
}

func alike(t *testing.T, n *circuit.Net, p, q *circuit.Point) {
	t.Helper()
	for v := range circuit.Node(n.Nodes()) {
		if p.Volts(v) != q.Volts(v) || p.Alive(v) != q.Alive(v) {
			t.Fatalf("node %d: %v V, afresh %v", v, p.Volts(v), q.Volts(v))
		}
	}
	for b := range circuit.Branch(n.Branches()) {
		if p.Current(b) != q.Current(b) || p.Drop(b) != q.Drop(b) {
			t.Fatalf("branch %d: %v A, afresh %v", b, p.Current(b), q.Current(b))
		}
	}
	if len(p.Sagging()) != len(q.Sagging()) {
		t.Fatalf("sagging %v, afresh %v", p.Sagging(), q.Sagging())
	}
}
