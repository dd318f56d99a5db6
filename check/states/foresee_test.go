package states_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
)

// A solver that goes from position to position, and so foresees what relays do, comes
// to the bits of one that has solved nothing before.
func TestForeseenIsWhatIsSolved(t *testing.T) {
	moved := 0
	for seed := range uint64(80) {
		s, r := solver(t, generate(seed, 3+int(seed%9), seed%2 == 0)), rand.New(rand.NewPCG(seed, 1))
		for range 60 {
			p := states.Position{Key: "on", Engine: "off", Charge: 1, Throws: map[*harness.Device]int{}}
			if r.IntN(8) == 0 {
				p.Key = "off"
			}
			for _, e := range s.Network.Elements {
				if e.Kind == network.Contact && e.Gate.By == network.Hand && r.IntN(3) == 0 {
					p.Throws[e.Device] = e.Gate.Throw
				}
			}
			point, fresh := s.Solve(p), s.Clone().Solve(p)
			if got, want := said(s, point), said(s, fresh); got != want {
				t.Fatalf("seed %d: %s\nafresh %s", seed, got, want)
			}
			moved += len(point.In)
		}
	}
	if moved < 500 {
		t.Errorf("only %d relays moved", moved)
	}
}

// said is all that a point says of a network.
func said(s *states.Solver, p *states.Point) string {
	text := fmt.Sprint(p.In, p.Unsettled, p.Sagging, p.Failed)
	for i := range s.Network.Elements {
		text += fmt.Sprint(" ", p.Amps(i), p.Across(i))
	}
	return text
}
