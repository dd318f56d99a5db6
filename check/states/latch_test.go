package states_test

import (
	"testing"

	"hame/check/states"
)

// A relay that its own contact can feed holds itself in; one whose coil is fed
// from ahead of its contact, with nothing but loads behind, does not; with a
// source behind it may.
func TestWhatHoldsItself(t *testing.T) {
	base := `harness h { system 12 V }
supply battery main { capacity 70 Ah; resistance 10 mohm }
ground chassis frame
switch relay k { contacts 30 A; coil 90 ohm }
switch toggle s { rating 10 A }
load heater lamp { draws 20 W }
wire back main.neg -> frame 10 mm2 1 m
wire in main.pos -> k.30 6 mm2 1 m
wire low k.85 -> frame 1 mm2 1 m
wire out k.87 -> lamp.pos 2.5 mm2 1 m
wire ret lamp.neg -> frame 2.5 mm2 1 m
`
	ahead := base + "wire feed main.pos -> s.in 1 mm2 1 m\nwire coil s.out -> k.86 1 mm2 1 m\n"
	for name, c := range map[string]struct {
		text string
		want int
	}{
		"from behind the contact": {base + "wire feed k.87 -> s.in 1 mm2 1 m\nwire coil s.out -> k.86 1 mm2 1 m\n", 1},
		"from ahead of it":        {ahead, 0},
		"a battery behind":        {ahead + "supply battery aux { capacity 70 Ah; resistance 10 mohm }\nwire a1 aux.pos -> k.87 6 mm2 1 m\nwire a2 aux.neg -> frame 6 mm2 1 m\n", 1},
		"a way round it":          {ahead + "wire round k.30 -> k.87 1 mm2 1 m\n", 1},
	} {
		if got := states.Latches(solver(t, c.text)); got != c.want {
			t.Errorf("%s: %d coils may hold themselves, want %d", name, got, c.want)
		}
	}
}
