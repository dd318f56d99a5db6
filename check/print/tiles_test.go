package print_test

import (
	"strings"
	"testing"

	"hame/check/draw"
	"hame/check/print"
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

// TestDrawingsHeading: no heading of a drawing stands alone on a page, whose own
// page has its title.
func TestDrawingsHeading(t *testing.T) {
	s := &sheet.Sheet{Name: "record", Title: "Record", Blocks: []sheet.Block{
		sheet.Text{Words: "Before it."}, sheet.Heading{Words: "Wiring"}, sheet.Drawing{Pictures: []*draw.Picture{samplePicture()}},
	}}
	pages := pagesOf(t, asPDF(t, sampleHead(), "a4", s))
	if len(pages) != 2 || strings.Contains(pages[0].words, "Wiring") || !strings.Contains(pages[1].words, "Formboard") {
		t.Errorf("%d pages: %q", len(pages), pages[0].words)
	}
}

// TestDrawnRoom: words in a drawing that have to be spelt out take no more room than
// was measured for them, so that they hide nothing beside them.
func TestDrawnRoom(t *testing.T) {
	p := &draw.Picture{Name: "card", Title: "Card", WidthMM: 100, HeightMM: 20, Items: []draw.Item{
		draw.Text{At: draw.Point{X: 5, Y: 10}, Words: strings.Repeat("\u202e", 12) + "lamps", SizeMM: 3},
		draw.Text{At: draw.Point{X: 5, Y: 15}, Words: "rear lamps", SizeMM: 3},
	}}
	page := asHTML(t, print.HTMLOptions{}, &sheet.Sheet{Name: "panel", Title: "Cards", Blocks: []sheet.Block{sheet.Drawing{Pictures: []*draw.Picture{p}}}})
	if strings.Contains(page, strings.Repeat(`\u202e`, 12)) || !strings.Contains(page, "…") || !strings.Contains(page, "rear lamps") {
		t.Error("words are not cut to the room that was measured for them")
	}
}
