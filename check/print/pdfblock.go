package print

import (
	"strconv"

	"hame/check/draw"
	"hame/check/sheet"
)

// betweenMM stands between blocks.
const betweenMM = 3

func (l *layout) sheet(s *sheet.Sheet) {
	l.of, l.lying = s, l.wantsLying(s)
	l.turn()
	if s.Purpose != "" {
		l.paragraph(s.Purpose, face{sizeMM: bodyMM})
	}
	lying := l.lying
	for i, b := range s.Blocks {
		if headsDrawing(s.Blocks, i) {
			continue
		}
		if _, drawing := b.(sheet.Drawing); !drawing && l.lying != lying {
			l.lying = lying // a drawing has turned the page for itself
			l.turn()
		}
		l.block(b)
	}
}

// headsDrawing reports whether a block is the heading of a drawing, which has a page
// of its own with its title on it.
func headsDrawing(blocks []sheet.Block, i int) bool {
	if _, heading := blocks[i].(sheet.Heading); !heading || i+1 == len(blocks) {
		return false
	}
	_, drawing := blocks[i+1].(sheet.Drawing)
	return drawing
}

func (l *layout) block(b sheet.Block) {
	switch b := b.(type) {
	case sheet.Heading:
		l.heading(b)
	case sheet.Text:
		l.text(b)
	case *sheet.Table:
		l.table(b)
	case sheet.Steps:
		l.steps(b)
	case sheet.Drawing:
		for _, p := range b.Pictures {
			l.picture(p)
		}
	}
}

// heading keeps some of what follows on its page.
func (l *layout) heading(b sheet.Heading) {
	l.room(28)
	if l.y > l.top() {
		l.y += 2
	}
	l.paragraph(b.Words, face{bold: true, sizeMM: titleMM})
	l.y -= 1
}

// paragraph sets words over the page's width, lines over pages where they must.
func (l *layout) paragraph(text string, f face) {
	high := lineMM(f.sizeMM)
	for _, line := range wrap(inked(text), l.width(), f.measure()) {
		l.room(high)
		l.words(marginMM, l.y+f.sizeMM, line, f)
		l.y += high
	}
	l.y += betweenMM
}

func (l *layout) text(b sheet.Text) {
	switch b.Weight {
	case sheet.Small:
		l.paragraph(b.Words, face{sizeMM: smallMM})
	case sheet.Warning:
		l.warning(b.Words)
	default:
		l.paragraph(b.Words, face{sizeMM: bodyMM})
	}
}

// warning sets words in a frame. A text is never longer than a page.
func (l *layout) warning(text string) {
	const pad = 2.5
	f := face{bold: true, sizeMM: bodyMM}
	lines := wrap(inked("WARNING: "+text), l.width()-2*pad, f.measure())
	high := float64(len(lines))*lineMM(bodyMM) + 2*pad
	l.room(high)
	l.box(marginMM, l.y, l.width(), high, 0.6)
	y := l.y + pad - 0.3
	for _, line := range lines {
		l.words(marginMM+pad, y+bodyMM, line, f)
		y += lineMM(bodyMM)
	}
	l.y += high + betweenMM
}

// steps sets a box to tick, a number, and what is to be done.
func (l *layout) steps(b sheet.Steps) {
	const tick, in = 3.4, 14
	f, small := face{sizeMM: bodyMM}, face{sizeMM: smallMM}
	for i, s := range b.Items[:min(len(b.Items), mostSteps)] {
		lines := wrap(inked(s.Words), l.width()-in, f.measure())
		var detail []string
		if s.Detail != "" {
			detail = wrap(inked(s.Detail), l.width()-in, small.measure())
		}
		l.room(float64(len(lines))*lineMM(bodyMM) + float64(len(detail))*lineMM(smallMM) + 1)
		l.box(marginMM+0.5, l.y+0.2, tick, tick, 0.3)
		l.words(marginMM+in-2, l.y+bodyMM, strconv.Itoa(i+1)+".", face{sizeMM: bodyMM, anchor: draw.End})
		l.lines(marginMM+in, lines, f)
		l.lines(marginMM+in, detail, small)
		l.y += 1.2
	}
	l.y += betweenMM - 1
	l.left(leftOut(len(b.Items), mostSteps, "steps"))
}

// lines sets lines that have their room.
func (l *layout) lines(x float64, lines []string, f face) {
	for _, line := range lines {
		l.words(x, l.y+f.sizeMM, line, f)
		l.y += lineMM(f.sizeMM)
	}
}

// left says what is left out, if anything is.
func (l *layout) left(words string) {
	if words != "" {
		l.paragraph(words, face{sizeMM: smallMM})
	}
}
