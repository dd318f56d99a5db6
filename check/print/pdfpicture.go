package print

import (
	"fmt"
	"math"

	"github.com/go-pdf/fpdf"

	"hame/check/draw"
)

const (
	captionMM = 7   // above a picture, for its title
	scaleMM   = 5   // below it, for a line on its scale
	rulerMM   = 12  // below one of true size, for the printer's check as well
	mostScale = 1.5 // that a picture is enlarged to
)

// picture sets a picture on a page of its own, which lies where the picture is
// wider than high. One of true size goes over as many pages as it takes.
func (l *layout) picture(p *draw.Picture) {
	p, left := tidy(p)
	p.Items = inkedItems(p.Items)
	if !finite(p.WidthMM, p.HeightMM) || p.WidthMM <= 0 || p.HeightMM <= 0 {
		l.left(fmt.Sprintf("The drawing %s has no size and is left out here.", inked(p.Title)))
		return
	}
	l.lying = p.WidthMM > p.HeightMM
	if p.TrueSize {
		l.trueSize(p)
	} else {
		l.fit(p)
	}
	l.left(left)
}

// area is where pictures stand on the page, with room under them.
func (l *layout) area(underMM float64) draw.Box {
	return draw.Box{Left: marginMM, Top: l.top() + captionMM, Right: l.size().wide - marginMM, Bottom: l.bottom() - underMM}
}

func widthOf(b draw.Box) float64  { return b.Right - b.Left }
func heightOf(b draw.Box) float64 { return b.Bottom - b.Top }

// ownPage turns the page, unless nothing stands on it, and titles it.
func (l *layout) ownPage(title string) {
	if l.page.lying != l.lying && len(l.page.marks) == 0 && !l.full {
		l.page.lying = l.lying // nothing stands on it yet
		l.y = l.top()
	} else if l.y > l.top() || l.page.lying != l.lying {
		l.turn()
	}
	l.words(marginMM, l.top()+bodyMM, fitted(title, face{bold: true, sizeMM: bodyMM}, l.width()), face{bold: true, sizeMM: bodyMM})
	l.y = l.bottom() // nothing else stands on it
}

// fit scales a picture to its page.
func (l *layout) fit(p *draw.Picture) {
	l.ownPage(p.Title)
	scale := l.place(p)
	note := fmt.Sprintf("Scale 1 : %.2g. Not to be measured from.", 1/scale)
	if scale < 0.5 {
		note += " Is it too small to read? As --format html it can be enlarged."
	}
	l.note(note)
}

// place draws a picture as large as it fits, and gives its scale.
func (l *layout) place(p *draw.Picture) float64 {
	a := l.area(scaleMM)
	scale := min(widthOf(a)/p.WidthMM, heightOf(a)/p.HeightMM, mostScale)
	l.ink(p.Items, scale, a.Left+(widthOf(a)-p.WidthMM*scale)/2, a.Top)
	return scale
}

func (l *layout) ink(items []draw.Item, scale, dx, dy float64) {
	l.put(func(pdf *fpdf.Fpdf) {
		inkwell{pdf, scale, dx, dy}.items(items)
		pdf.SetDashPattern(nil, 0)
	})
}

// note sets a line under a picture.
func (l *layout) note(words string) {
	f := face{sizeMM: smallMM}
	l.words(marginMM, l.bottom()-2, fitted(words, f, l.width()), f)
}

// ruler draws 100 mm, by which a printer's scaling is seen.
func (l *layout) ruler() {
	const long = 100
	y := l.bottom() - 5.5
	for i := range 11 {
		x, up := marginMM+float64(i)*10, 1.5
		if i%5 == 0 {
			up = 2.5
		}
		l.rule(x, y, x, y-up, 0.2)
	}
	l.rule(marginMM, y, marginMM+long, y, 0.2)
	f := face{sizeMM: smallMM}
	l.words(marginMM+long+3, y, fitted("100 mm: measure it. If it is not, print at 100 %, without fitting to the page.", f, l.width()-long-3), f)
}

// inkedItems has the texts of items in letters that can be printed, and only
// what can be drawn at all.
func inkedItems(items []draw.Item) []draw.Item {
	list := make([]draw.Item, 0, len(items))
	for _, i := range items {
		switch t := i.(type) {
		case draw.Text:
			i = worded(t, drawn(t.Words))
		case draw.Group:
			t.Items = inkedItems(t.Items)
			i = t
		}
		if b, ok := draw.Bounds(i); !ok || finite(b.Left, b.Top, b.Right, b.Bottom) {
			list = append(list, i)
		}
	}
	return list
}

// counted is how many parts of a length cover another, with an overlap.
func counted(whole, part, overlap float64) int {
	if whole <= part {
		return 1
	}
	return int(math.Ceil((whole - overlap) / (part - overlap)))
}
