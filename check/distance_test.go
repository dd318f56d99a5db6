package check_test

import (
	"fmt"
	"testing"
)

// TestDistanceOfMixedWays: 33 CFR 183.455 (b) allows 178 mm from the source, and
// 1016 mm where the conductor is sheathed throughout (read). The starter's own
// cable is exempt, what branches off its stud is not; and a bare piece behind a
// sheathed one takes the sheath's allowance away.
func TestDistanceOfMixedWays(t *testing.T) {
	const circuit = `protection fuse f2 { at shelf; rating 10 A; covered }
load led rear { at shelf; draws 9 W; least 9 V; meant always }
wire a2 f2.out -> rear.pos 2.5 mm2 red 1 m
wire a3 rear.neg -> main.neg 2.5 mm2 black 1 m
`
	const starter = circuit + `load starter turn { at shelf; draws 1.5 kW }
wire a0 main.pos -> turn.pos 35 mm2 sgx red 0.8 m
wire a4 turn.neg -> main.neg 35 mm2 sgx black 0.5 m
wire a1 turn.pos -> f2.in 2.5 mm2 red %s
`
	const stud = circuit + `join stud s { at shelf; size M6; covered }
wire a0 main.pos -> s 2.5 mm2 red %s
wire a1 s -> f2.in 2.5 mm2 red %s
`
	const sheath = " { cover loom_pa }"
	for _, c := range []struct {
		more, a0, a1 string // a0 and a1: what is said of them
	}{
		{fmt.Sprintf(starter, "0.178 m"), "", ""},
		{fmt.Sprintf(starter, "0.179 m"), "", "error"},
		{fmt.Sprintf(starter, "5 m"), "", "error"},
		{fmt.Sprintf(starter, "1.016 m"+sheath), "", ""},
		{fmt.Sprintf(starter, "1.017 m"+sheath), "", "error"},
		{fmt.Sprintf(stud, "0.9 m"+sheath, "0.05 m"), "", "error"},
		{fmt.Sprintf(stud, "0.1 m"+sheath, "0.078 m"), "", ""},
		{fmt.Sprintf(stud, "0.05 m", "0.9 m"+sheath), "", "error"},
		{fmt.Sprintf(stud, "0.2 m", "0.9 m"+sheath), "error", ""},
		{fmt.Sprintf(stud, "0.5 m"+sheath, "0.6 m"+sheath), "", "error"},
		{fmt.Sprintf(stud, "1.1 m"+sheath, "0.1 m"), "error", ""},
	} {
		text := post{practice: "land", more: c.more}.text()
		if a0, a1 := ruled(t, text, "protection/far", "a0"), ruled(t, text, "protection/far", "a1"); a0 != c.a0 || a1 != c.a1 {
			t.Errorf("a0 %q, a1 %q; want %q, %q:\n%s", a0, a1, c.a0, c.a1, c.more)
		}
	}
}
