package sheets

import (
	"fmt"

	"hame/check/draw"
)

// A page of labels, in mm: it fits A4 and letter paper, upright and across.
const (
	labelWide, labelHigh = 60.0, 12.0
	labelsAcross         = 3
	labelsDown           = 12
	labelMargin          = 4.0 // for the cut marks
	cutMarkMM            = 3.0
	labelRoomMM          = 2.0 // left clear at each side
	wrapMM               = 3.0 // of a half, that goes round the wire
)

// The type of a label, in mm: as large as it fits, no smaller than can be read.
const (
	firstSize, thenSize, leastSize = 4.2, 3.0, 1.8
)

// double is a wire's label: the same on both halves, which are folded together.
func double(l label) []draw.Item {
	half := labelWide / 2
	room := half - labelRoomMM - wrapMM
	items := lines(l, labelRoomMM, room)
	items = append(items, lines(l, half+wrapMM, room)...)
	fold := draw.Ink{WidthMM: 0.15, Colour: draw.Ash, DashMM: 1}
	return append(items, draw.Line{Points: []draw.Point{{X: half, Y: 0}, {X: half, Y: labelHigh}}, Ink: fold})
}

// single is a device's label.
func single(l label) []draw.Item { return lines(l, labelRoomMM, labelWide-2*labelRoomMM) }

func lines(l label, x, room float64) []draw.Item {
	if l.Then == "" {
		return []draw.Item{fitted(x, 7.5, l.First, firstSize, true, room)}
	}
	return []draw.Item{fitted(x, 5.4, l.First, firstSize, true, room), fitted(x, 9.9, l.Then, thenSize, false, room)}
}

// fitted makes words smaller until they fit; what does not even then is cut.
func fitted(x, y float64, text string, size float64, heavy bool, room float64) draw.Text {
	if long := draw.WidthMM(text, size, heavy); long > room {
		size = max(leastSize, size*room/long)
	}
	return words(x, y, text, size, heavy, room)
}

// flagPages sets labels in a grid, page by page.
func flagPages(name, title string, list []label, face func(label) []draw.Item) []*draw.Picture {
	const each = labelsAcross * labelsDown
	var pages []*draw.Picture
	for from := 0; from < len(list); from += each {
		part := list[from:min(len(list), from+each)]
		down := (len(part) + labelsAcross - 1) / labelsAcross
		p := &draw.Picture{
			Name: fmt.Sprintf("%s_%d", name, len(pages)+1), Title: title, TrueSize: true,
			Describe: fmt.Sprintf("%d labels of %g x %g mm with marks to cut by; the table of the sheet has the same words.", len(part), labelWide, labelHigh),
			WidthMM:  labelsAcross*labelWide + 2*labelMargin, HeightMM: float64(down)*labelHigh + 2*labelMargin,
		}
		p.Add(cutMarks(down)...)
		for i, l := range part {
			x, y := labelMargin+float64(i%labelsAcross)*labelWide, labelMargin+float64(i/labelsAcross)*labelHigh
			for _, item := range face(l) {
				p.Add(draw.Moved(item, x, y))
			}
		}
		pages = append(pages, p)
	}
	return pages
}

// cutMarks are thin lines between the labels, and marks outside them.
func cutMarks(down int) []draw.Item {
	right, bottom := labelMargin+labelsAcross*labelWide, labelMargin+float64(down)*labelHigh
	var items []draw.Item
	line := func(ink draw.Ink, x0, y0, x1, y1 float64) {
		items = append(items, draw.Line{Points: []draw.Point{{X: x0, Y: y0}, {X: x1, Y: y1}}, Ink: ink})
	}
	thin, mark := draw.Ink{WidthMM: 0.1, Colour: draw.Ash}, draw.Ink{WidthMM: 0.25, Colour: draw.Black}
	for i := range labelsAcross + 1 {
		x := labelMargin + float64(i)*labelWide
		line(thin, x, labelMargin, x, bottom)
		line(mark, x, labelMargin-cutMarkMM, x, labelMargin)
		line(mark, x, bottom, x, bottom+cutMarkMM)
	}
	for i := range down + 1 {
		y := labelMargin + float64(i)*labelHigh
		line(thin, labelMargin, y, right, y)
		line(mark, labelMargin-cutMarkMM, y, labelMargin, y)
		line(mark, right, y, right+cutMarkMM, y)
	}
	return items
}
