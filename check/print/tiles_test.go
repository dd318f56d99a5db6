package print_test

import (
	"testing"

	"hame/check/draw"
	"hame/check/sheet"
)

// TestFewestTiles: a picture of true size that has all that is on it in one strip
// takes the way to hold the page in which the strip goes over the fewest, though
// the other way would cover the whole picture with fewer.
func TestFewestTiles(t *testing.T) {
	strip := draw.Line{Points: []draw.Point{{X: 5, Y: 5}, {X: 995, Y: 5}}, Ink: draw.Ink{WidthMM: 1, Colour: draw.Black}}
	p := &draw.Picture{Name: "board", Title: "Board", WidthMM: 1000, HeightMM: 1000, TrueSize: true, Items: []draw.Item{strip}}
	s := &sheet.Sheet{Name: "layout", Title: "Layout", Blocks: []sheet.Block{sheet.Drawing{Pictures: []*draw.Picture{p}}}}
	// A4 held lying is 277 mm wide within its margins, 10 mm of them over the page
	// beside it: 4 pages, and the plan of them.
	if pages := pagesOf(t, asPDF(t, sampleHead(), "a4", s)); len(pages) != 5 {
		t.Errorf("%d pages, want 5", len(pages))
	}
}
