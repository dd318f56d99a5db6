package tables

import "testing"

// The figures of workshop manuals and a tester's handbook, as seen: a cable
// 0.2 V, a switch 0.3 V, a ground 0.1 V, a circuit 1 V; a starter's two sides
// together 0.8 V.
func TestDropTests(t *testing.T) {
	for item, want := range map[string]float64{"cable": 0.2, "contact": 0.3, "joint": 0.1, "ground": 0.1, "circuit": 1} {
		if got, s, ok := DropTest(item); !ok || got != want || s.Mark != Seen {
			t.Errorf("%s: %g V (%v, %v), want %g V", item, got, s, ok, want)
		}
	}
	feed, _, _ := DropTest("starter_feed")
	back, _, _ := DropTest("starter_return")
	if got := feed + back; got != 0.8 {
		t.Errorf("a starter loses %g V, the handbook has 0.8 V in all", got)
	}
	if _, _, ok := DropTest("lamp"); ok {
		t.Error("a limit for a lamp, which no book gives")
	}
}
