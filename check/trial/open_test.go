package trial_test

import (
	"math"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/network"
	"hame/check/states"
	"hame/check/trial"
	"hame/lang/source"
)

// TestWithoutIsWithout: what the model solves with an element open is what the
// network without that element comes to, whatever was open before.
func TestWithoutIsWithout(t *testing.T) {
	for seed := range uint64(12) {
		run := check.File(source.New("t.hame", yard.Make(seed).Print().Source), check.Options{})
		plan := trial.Of(run.Facts)
		solved := plan.Model.AsIs()
		for s := range plan.Settings {
			for _, open := range opened(run.Facts.Network) {
				same(t, run.Facts.Network.Without(open...), solved.Without(s, open...), plan.Settings[s].Position)
			}
			same(t, run.Facts.Network, solved.Point(s), plan.Settings[s].Position)
		}
	}
}

// opened lists each fuse by itself, and each plug with all that it takes off.
func opened(n *network.Network) [][]int {
	var list [][]int
	for i := range n.Elements {
		switch e := &n.Elements[i]; {
		case e.Kind == network.Fuse:
			list = append(list, []int{i})
		case e.Kind == network.Load && !e.Load.Hidden():
			plug := []int{}
			for k, o := range n.Elements {
				if o.Device == e.Device && (o.Kind == network.Load || o.Kind == network.Source) {
					plug = append(plug, k)
				}
			}
			list = append(list, plug)
		}
	}
	return list
}

// same holds a point to what a solver of its own has of a network.
func same(t *testing.T, n *network.Network, got *states.Point, at states.Position) {
	t.Helper()
	const solvedV = 1e-6 // what two ways of eliminating the same nodes may differ by
	want := states.NewSolver(n).Solve(at)
	if (got.Failed == nil) != (want.Failed == nil) {
		t.Fatalf("%v, want %v", got.Failed, want.Failed)
	}
	for node := range n.Nodes {
		if got.Alive(node) != want.Alive(node) || math.Abs(got.Volts(node)-want.Volts(node)) > solvedV {
			t.Fatalf("node %d: %t %g V, want %t %g V", node, got.Alive(node), got.Volts(node), want.Alive(node), want.Volts(node))
		}
	}
}
