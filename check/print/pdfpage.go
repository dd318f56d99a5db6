package print

import (
	"strings"

	"github.com/go-pdf/fpdf"

	"hame/check/draw"
	"hame/check/sheet"
)

// mark is something that is drawn on a page of a document.
type mark func(*fpdf.Fpdf)

// leaf is one page, before how many there are is known.
type leaf struct {
	of    *sheet.Sheet
	lying bool // wider than high
	first bool // of its sheet
	marks []mark
}

// The page's frame, in mm.
const (
	marginMM  = 10
	topMM     = 9    // above the header
	headMM    = 16.5 // the header, without the verdict
	verdictMM = 8    // the verdict's frame, with a gap under it
	footMM    = 9    // below the footer
)

// mostPages is how long a document may be.
const mostPages = 1000

// layout puts blocks on pages, from above.
type layout struct {
	head  sheet.Head
	paper size
	pages []*leaf
	page  *leaf
	of    *sheet.Sheet
	lying bool
	full  bool    // there are as many pages as may be
	y     float64 // where the next block goes
	foot  map[bool][]string
}

func newLayout(h sheet.Head, paper size) *layout {
	l := &layout{head: h, paper: paper, foot: map[bool][]string{}}
	var all []string
	for _, c := range sheet.Cautions {
		all = append(all, inked(c))
	}
	for _, lying := range []bool{false, true} {
		l.lying = lying
		l.foot[lying] = wrap(strings.Join(all, " "), l.width(), face{sizeMM: tinyMM}.measure())
	}
	return l
}

func (l *layout) size() size {
	if l.lying {
		return size{l.paper.high, l.paper.wide}
	}
	return l.paper
}

func (l *layout) width() float64 { return l.size().wide - 2*marginMM }

// top and bottom are where the blocks of a page may stand.
func (l *layout) top() float64 {
	if l.head.ForBuild() {
		return topMM + headMM
	}
	return topMM + headMM + verdictMM
}

func (l *layout) bottom() float64 {
	lines := len(l.foot[l.lying]) + 1
	return l.size().high - footMM - float64(lines)*lineMM(tinyMM) - 3
}

// turn starts a page.
func (l *layout) turn() {
	p := &leaf{of: l.of, lying: l.lying, first: len(l.pages) == 0 || l.pages[len(l.pages)-1].of != l.of}
	l.page, l.y = p, l.top()
	if l.full = len(l.pages) >= mostPages; !l.full {
		l.pages = append(l.pages, p)
	}
}

// room turns the page where less than so much is left of it.
func (l *layout) room(highMM float64) {
	if l.y+highMM > l.bottom() && l.y > l.top() {
		l.turn()
	}
}

// close says on a page of its own where pages are left out.
func (l *layout) close() {
	if l.full {
		l.page = &leaf{of: l.of, lying: l.lying}
		l.pages, l.y = append(l.pages, l.page), l.top()
		l.paragraph("The paper is too long: what comes after is left out here. Print its sheets one by one, or as CSV.", face{bold: true, sizeMM: bodyMM})
	}
}

// frame draws what stands on every page, under its blocks.
func (l *layout) frame(p *leaf, number string) {
	l.page, l.lying = p, p.lying
	right, y := l.size().wide-marginMM, float64(topMM)
	l.words(right, y+4, number, face{sizeMM: smallMM, anchor: draw.End})
	l.words(marginMM, y+4, fitted(p.of.Title, face{bold: true, sizeMM: titleMM}, l.width()-30), face{bold: true, sizeMM: titleMM})
	l.words(marginMM, y+9, fitted(l.head.Title, face{bold: true, sizeMM: bodyMM}, l.width()), face{bold: true, sizeMM: bodyMM})
	l.words(marginMM, y+13, fitted(originOf(l.head), face{sizeMM: smallMM}, l.width()), face{sizeMM: smallMM})
	if v := l.head.Verdict(); v != "" {
		l.box(marginMM, y+headMM-1.5, l.width(), verdictMM-2, 0.6)
		l.words(l.size().wide/2, y+headMM+3, v, face{bold: true, sizeMM: titleMM, anchor: draw.Middle})
	} else {
		l.rule(marginMM, y+headMM-2, right, y+headMM-2, 0.3)
	}
	y = l.bottom() + 2
	l.rule(marginMM, y, right, y, 0.2)
	f := face{sizeMM: tinyMM}
	for _, line := range append(l.foot[l.lying], inked(sheet.Defer)) {
		y += lineMM(tinyMM)
		l.words(marginMM, y, line, f)
	}
}

// fitted cuts words to a width, with a mark where some are left out.
func fitted(text string, f face, mostMM float64) string {
	return draw.Cut(inked(text), f.sizeMM, f.bold, mostMM)
}
