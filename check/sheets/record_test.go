package sheets

import (
	"testing"

	"hame/check/draw"
	"hame/check/sheet"
)

// TestRecordIsReadable: the record's drawings are no larger than what is left of a
// page of their paper beside its head and foot, so that no type on them is made
// smaller than they are drawn with, which is 2 mm.
func TestRecordIsReadable(t *testing.T) {
	everyExample(t, func(t *testing.T, p *Pack) {
		made, _ := Of(p, "record")
		d, ok := made.Blocks[len(made.Blocks)-1].(sheet.Drawing)
		if !ok || len(d.Pictures) < 2 {
			t.Fatalf("the record ends in %T", made.Blocks[len(made.Blocks)-1])
		}
		for _, picture := range d.Pictures {
			// A4 is 297 by 210 mm, lying or upright.
			long, short := max(picture.WidthMM, picture.HeightMM), min(picture.WidthMM, picture.HeightMM)
			if long > 297-20 || short > 210-20 || picture.HeightMM > 297-80 {
				t.Errorf("%s is %.0f by %.0f mm", picture.Title, picture.WidthMM, picture.HeightMM)
			}
			if picture.Name == "wiring-key" {
				continue // its symbols are small; what they are stands beside them
			}
			smallest := 99.0
			for _, i := range picture.Items {
				smallest = min(smallest, leastType(i))
			}
			if smallest < 1.9 {
				t.Errorf("%s has type of %.1f mm", picture.Title, smallest)
			}
		}
	})
}

func leastType(i draw.Item) float64 {
	least := 99.0
	switch i := i.(type) {
	case draw.Text:
		return i.SizeMM
	case draw.Group:
		for _, in := range i.Items {
			least = min(least, leastType(in))
		}
	}
	return least
}
