package print_test

import (
	"strings"

	"hame/check/draw"
	"hame/check/sheet"
)

// hostile is what an author may have called something.
const hostile = "<script>alert(1)</script>\x1b[2J\u202e\"'&</style>\xff"

func sampleHead() sheet.Head {
	return sheet.Head{
		Harness: "tender", Title: "Tender's loom", File: "tender.hame", Hash: strings.Repeat("0123456789abcdef", 4),
		Practice: "land", Date: "2027-05-31", Errors: 2, Open: 5,
	}
}

// sample has every sort of block.
func sample() *sheet.Sheet {
	s := &sheet.Sheet{Name: "wires", Title: "Cut list", Purpose: "Each wire to cut: gauge, colour, length and both ends."}
	s.Add(
		sheet.Heading{Words: "Wires"},
		sheet.Text{Words: "Lengths are cut lengths, slack at both ends included, rounded up to whole steps of 10 mm."},
		sampleTable(),
		sheet.Text{Words: "Cut nothing before the route has been walked with a cord.", Weight: sheet.Warning},
		sheet.Heading{Words: "Order of work"},
		sheet.Steps{Items: []sheet.Step{
			{Words: "Cut and label all wires."},
			{Words: "Crimp the first ends.", Detail: "Pull each by hand: it must hold, and the strands must show behind the barrel."},
		}},
		&sheet.Table{Name: "reels", Title: "By reel", Columns: []sheet.Column{{Name: "gauge", Title: "size"}}, Empty: "no wire is new"},
		sheet.Drawing{Pictures: []*draw.Picture{samplePicture()}},
		sheet.Text{Words: "Resistance: IEC 60228 Table 3 (class 5).", Weight: sheet.Small},
	)
	return s
}

func sampleTable() *sheet.Table {
	t := &sheet.Table{
		Name: "wires", Title: "New wires, by reel",
		Columns: []sheet.Column{
			{Name: "wire", Title: "wire"},
			{Name: "colour", Title: "colour"},
			{Name: "length_mm", Title: "cut length", Unit: "mm", Right: true},
			{Name: "from", Title: "from"},
			{Name: "note", Title: "note"},
			{Name: "done", Title: "cut", Blank: true},
		},
	}
	t.Rows = []sheet.Row{
		{Name: "w1", Cells: []sheet.Cell{{Words: "w1", Strong: true}, {Words: "red", Swatch: []draw.Colour{"red"}}, {Words: "1 800", Raw: "1800"}, sheet.Is("main.pos"), sheet.Is("=2+5")}},
		{Name: "w2", Cells: []sheet.Cell{{Words: "w2"}, {Words: "white/black", Swatch: []draw.Colour{"white", "black"}}, {Words: "-50", Raw: "-50"}, sheet.Is("engine_bay/left-panel.connector_17"), sheet.Is("keep clear of the exhaust, and behind the second clamp from the front, where it was rubbed through before")}},
		{Cells: []sheet.Cell{sheet.Is("w3"), sheet.Is("?"), sheet.Is("?"), sheet.Is("電池.正"), sheet.Is(hostile)}},
		{Total: true, Cells: []sheet.Cell{sheet.Is("sum"), sheet.Is(""), sheet.Is("1 750")}},
	}
	return t
}

func samplePicture() *draw.Picture {
	p := &draw.Picture{Name: "board", Title: "Formboard", Describe: "Two wires on a board.", WidthMM: 300, HeightMM: 120}
	p.Add(draw.Box{Left: 20, Top: 20, Right: 90, Bottom: 80}.Frame(draw.Ink{WidthMM: 0.4, Colour: draw.Black, Fill: draw.Shade}))
	p.Add(draw.Group{Sort: draw.Wire, Name: "w1", Tip: "w1: 1.8 m", Live: true, Items: draw.Strand([]draw.Point{{X: 90, Y: 40}, {X: 200, Y: 40}, {X: 200, Y: 90}}, "red", "white")})
	p.Add(draw.Circle{Centre: draw.Point{X: 230, Y: 60}, RadiusMM: 12, Ink: draw.Ink{WidthMM: 0.5, Colour: draw.Ash}})
	p.Add(draw.Arc{Centre: draw.Point{X: 230, Y: 60}, RadiusMM: 20, From: 180, To: 300, Ink: draw.Ink{WidthMM: 0.5, Colour: "blue", DashMM: 2}})
	p.Add(draw.Text{At: draw.Point{X: 55, Y: 50}, Words: "main", SizeMM: 5, Anchor: draw.Middle, Bold: true})
	p.Add(draw.Text{At: draw.Point{X: 205, Y: 90}, Words: "reads up", SizeMM: 4, Turned: true})
	return p
}
