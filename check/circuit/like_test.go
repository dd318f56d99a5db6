package circuit_test

import (
	"math"
	"testing"

	"hame/check/circuit"
)

// Where an answer is said to be like a state's, the volts across all that is on
// are those of a fresh solve, and contacts that carry are never passed over.
func TestLikeIsLike(t *testing.T) {
	alike, other := 0, 0
	for seed := range uint64(300) {
		r := seeded(seed)
		m := newMachine(r, 60)
		n := m.b.Compile()
		s := n.State()
		for range 60 {
			s.Switch(m.contacts[r.IntN(len(m.contacts))], r.IntN(2) > 0)
			like := n.Like(s)
			fresh, err := n.Solve(s.Clone())
			if err != nil {
				t.Fatal(err)
			}
			if _, err := n.Answer(s); err != nil {
				t.Fatal(err)
			}
			if like == nil {
				other++
				continue
			}
			alike++
			for b := range circuit.Branch(n.Branches()) {
				if d := like.Drop(b) - fresh.Drop(b); s.On(b) && !(math.Abs(d) <= 1e-9) {
					t.Fatalf("seed %d, branch %d: %v V, afresh %v", seed, b, like.Drop(b), fresh.Drop(b))
				}
			}
		}
	}
	if alike < 1000 || other < 1000 {
		t.Errorf("%d positions were like another, %d were not", alike, other)
	}
}

// A contact in a dead part makes no difference, one that feeds a lamp does, and a
// source that is switched on is never passed over.
func TestLike(t *testing.T) {
	b := circuit.NewBuilder()
	gnd, pos, in, out, far := b.Node(), b.Node(), b.Node(), b.Node(), b.Node()
	b.Reference(gnd)
	b.Source(pos, gnd, battery(12, 0.01))
	feed := b.Contact(pos, in, 0.01)
	way := b.Contact(in, out, 0.01)
	b.Power(in, gnd, 10, 9)
	b.Power(out, gnd, 5, 9)
	spare := b.Source(far, gnd, battery(12, 0.01))
	tie := b.Contact(far, pos, 0.01)
	n := b.Compile()
	s := n.State()
	s.Switch(spare, false)
	for _, step := range []struct {
		branch circuit.Branch
		on     bool
		like   bool
	}{{way, true, true}, {way, false, true}, {feed, true, false}, {way, true, false}, {feed, false, true}, {tie, true, false}, {spare, true, false}} {
		before, err := n.Answer(s)
		if err != nil {
			t.Fatal(err)
		}
		s.Switch(step.branch, step.on)
		if like := n.Like(s); (like != nil) != step.like {
			t.Errorf("branch %d switched %v after %v A: like %v, want %v", step.branch, step.on, before.Current(step.branch), like != nil, step.like)
		}
	}
}
