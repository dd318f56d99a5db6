package note_test

import (
	"math"
	"testing"

	"hame/check/note"
	"hame/check/rules"
	"hame/lang/kinds"
)

// TestWeakestAgrees: what a device's note ends in as its share of the weakest
// ampacity is what the rules judge it by, and the protection schedule prints, be
// that a wire's or a load's own lead.
func TestWeakestAgrees(t *testing.T) {
	leads := 0
	for _, name := range []string{"sap_hauler", "forwarder", "trailer", "launch"} {
		run := checked(t, "../../examples/"+name+"/harness.hame")
		for d, weak := range rules.Ask(run.Facts).Weakest() {
			if d.Of.Is(kinds.Supply, "tap") {
				continue // its note is that of a supply
			}
			n, err := note.For(run, d.Name, "")
			if err != nil {
				t.Fatal(err)
			}
			share := math.NaN()
			for _, s := range n.Sections {
				for _, r := range s.Rows {
					if r.Label == "rating of ampacity" {
						share = r.Figure.Value
					}
				}
			}
			if weak.Wire == nil {
				leads++
			}
			if want := d.RatingA / weak.Rating.Amps; d.RatingA > 0 && !(math.Abs(share-want) < 1e-9*want) {
				t.Errorf("%s: the note of %s has %g of %s's ampacity, the schedule %g", name, d.Name, share, weak.Name, want)
			}
		}
	}
	if leads == 0 {
		t.Error("no lead is the weakest anywhere, so that this shows nothing of them")
	}
}
