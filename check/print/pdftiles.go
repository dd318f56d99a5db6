package print

import (
	"fmt"

	"github.com/go-pdf/fpdf"

	"hame/check/draw"
)

const (
	overlapMM = 10  // of the pages that a picture goes over
	mostTiles = 200 // pages of one picture
)

// tiling parts a picture of true size into pages.
type tiling struct {
	of           *draw.Picture
	part         draw.Box // the area of a page
	across, down int
}

// trueSize draws a picture a millimetre to a millimetre: on one page where it
// fits, else over many, after one that shows how they lie together.
func (l *layout) trueSize(p *draw.Picture) {
	t := l.tiled(p)
	if pages := t.pages(); pages > mostTiles {
		l.fit(p)
		l.note(fmt.Sprintf("At its true size it takes %d pages. Here it is scaled and not to be measured from; --format html has it in true size.", pages))
		return
	}
	if t.across*t.down == 1 {
		l.ownPage(p.Title)
		l.ink(p.Items, 1, t.part.Left, t.part.Top)
		l.ruler()
		l.note("True size: a millimetre is a millimetre.")
		return
	}
	l.plan(t)
	for row := range t.down {
		for column := range t.across {
			if items := touching(p.Items, t.box(column, row)); len(items) > 0 {
				l.tile(t, column, row, items)
			}
		}
	}
}

// tiled takes the way to hold the page that needs the fewest, empty ones left out.
func (l *layout) tiled(p *draw.Picture) tiling {
	var best tiling
	for _, lying := range []bool{p.WidthMM > p.HeightMM, p.WidthMM <= p.HeightMM} {
		l.lying = lying
		a := l.area(rulerMM)
		t := tiling{p, a, counted(p.WidthMM, widthOf(a), overlapMM), counted(p.HeightMM, heightOf(a), overlapMM)}
		if best.of == nil || t.pages() < best.pages() {
			best = t
		}
	}
	l.lying = widthOf(best.part) > heightOf(best.part)
	return best
}

// pages counts the pages that have something on them; of more than are looked
// through, all of them.
func (t tiling) pages() int {
	const looked = 20 * mostTiles
	if t.across > looked || t.across*t.down > looked {
		return t.across * t.down
	}
	count := 0
	for i := range t.across * t.down {
		if len(touching(t.of.Items, t.box(i%t.across, i/t.across))) > 0 {
			count++
		}
	}
	return count
}

// box is the part of the picture that a page shows.
func (t tiling) box(column, row int) draw.Box {
	wide, high := widthOf(t.part), heightOf(t.part)
	left, top := float64(column)*(wide-overlapMM), float64(row)*(high-overlapMM)
	return draw.Box{Left: left, Top: top, Right: left + wide, Bottom: top + high}
}

// label names a page by its row and column: B3.
func label(column, row int) string {
	letters := ""
	for row++; row > 0; row = (row - 1) / 26 {
		letters = string(rune('A'+(row-1)%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, column+1)
}

// plan shows the whole picture with its pages.
func (l *layout) plan(t tiling) {
	l.ownPage(t.of.Title + ": how its pages lie together")
	scale := l.place(t.of)
	a := l.area(scaleMM)
	left := a.Left + (widthOf(a)-t.of.WidthMM*scale)/2
	count := 0
	for row := range t.down {
		for column := range t.across {
			b := t.box(column, row)
			b.Right, b.Bottom = min(b.Right, t.of.WidthMM), min(b.Bottom, t.of.HeightMM)
			x0, y0, x1, y1 := left+b.Left*scale, a.Top+b.Top*scale, left+b.Right*scale, a.Top+b.Bottom*scale
			l.dashed(x0, y0, x1, y0)
			l.dashed(x1, y0, x1, y1)
			l.dashed(x1, y1, x0, y1)
			l.dashed(x0, y1, x0, y0)
			if len(touching(t.of.Items, b)) > 0 {
				count++
				name := label(column, row)
				f := face{bold: true, sizeMM: titleMM, anchor: draw.Middle}
				// No name lies on the next, nor on its page's edge.
				f.sizeMM = min(f.sizeMM*min(1, 0.8*(x1-x0)/f.measure().of(name)), 0.8*(y1-y0))
				l.words((x0+x1)/2, (y0+y1)/2+0.35*f.sizeMM, name, f)
			}
		}
	}
	l.note(fmt.Sprintf("Pages at true size: %d, each over its neighbour by %d mm; those that would be empty are left out. This page is not to be measured from.", count, overlapMM))
}

// tile is one page of a picture, with marks where its neighbours lie over it.
func (l *layout) tile(t tiling, column, row int, items []draw.Item) {
	l.ownPage(fmt.Sprintf("%s, %s (row %s of %d, %d of %d across)", t.of.Title, label(column, row), label(0, row)[:len(label(0, row))-1], t.down, column+1, t.across))
	a, b := t.part, t.box(column, row)
	l.put(func(pdf *fpdf.Fpdf) { pdf.ClipRect(a.Left, a.Top, widthOf(a), heightOf(a), false) })
	l.ink(items, 1, a.Left-b.Left, a.Top-b.Top)
	l.put(func(pdf *fpdf.Fpdf) { pdf.ClipEnd() })
	l.box(a.Left, a.Top, widthOf(a), heightOf(a), 0.1)
	if column > 0 {
		l.dashed(a.Left+overlapMM, a.Top, a.Left+overlapMM, a.Bottom)
	}
	if column < t.across-1 {
		l.dashed(a.Right-overlapMM, a.Top, a.Right-overlapMM, a.Bottom)
	}
	if row > 0 {
		l.dashed(a.Left, a.Top+overlapMM, a.Right, a.Top+overlapMM)
	}
	if row < t.down-1 {
		l.dashed(a.Left, a.Bottom-overlapMM, a.Right, a.Bottom-overlapMM)
	}
	l.ruler()
	l.note("True size. Cut along the frame and lay its edge on the dashed line of the page beside it; the drawing's lines run on.")
}

// touching are the items, or the parts of groups, that may show in a box.
func touching(items []draw.Item, box draw.Box) []draw.Item {
	var list []draw.Item
	for _, i := range items {
		switch g := i.(type) {
		case draw.Group:
			list = append(list, touching(g.Items, box)...)
			continue
		case draw.Line:
			if !lineTouches(g, box) {
				continue
			}
		}
		if b, ok := draw.Bounds(i); ok && b.Overlaps(box) {
			list = append(list, i)
		}
	}
	return list
}

// lineTouches goes by each part of a line that is not filled: a frame around a
// page is not on it.
func lineTouches(l draw.Line, box draw.Box) bool {
	if l.Ink.Fill != "" || len(l.Points) < 2 {
		return true
	}
	points := l.Points
	if l.Closed {
		points = append(points[:len(points):len(points)], points[0])
	}
	for i := range points[1:] {
		if b, _ := draw.Bounds(draw.Line{Points: points[i : i+2], Ink: l.Ink}); b.Overlaps(box) {
			return true
		}
	}
	return false
}
