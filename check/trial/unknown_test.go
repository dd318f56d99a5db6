package trial_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// TestTooMuchToFollow: where facts are missing from so large a harness that
// following each would take minutes, no figure under power is told, and the plan
// says so. Nothing is guessed.
func TestTooMuchToFollow(t *testing.T) {
	var b strings.Builder
	b.WriteString("harness h { system 12 V }\nplace here\nsupply battery main { at here; capacity 70 Ah; resistance 10 mohm }\nground chassis frame\nwire wn main.neg -> frame 50 mm2 0.3 m\n")
	for i := range 300 {
		draw := "draws 1 A; "
		if i < 50 {
			draw = ""
		}
		fmt.Fprintf(&b, "protection fuse f%[1]d { at here; rating 5 A }\nload led l%[1]d { %[2]sat here }\nwire a%[1]d main.pos -> f%[1]d.in 2 mm2 1 m\nwire b%[1]d f%[1]d.out -> l%[1]d.pos 2 mm2 1 m\nwire c%[1]d l%[1]d.neg -> frame 2 mm2 1 m\n", i, draw)
	}
	plan, _ := planOf(t, b.String()+"mode lit { key on; for 1 h }\n")
	if said := strings.Join(plan.Lacks, "\n"); !strings.Contains(said, "50 facts are missing") {
		t.Errorf("it says %q", said)
	}
	l := find(t, plan, "volts:l299:lit")
	if l.Expect != nil || !math.IsInf(l.Low, -1) || len(l.Needs) == 0 {
		t.Errorf("%+v is told for certain", l)
	}
}
