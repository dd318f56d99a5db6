package report

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"hame/lang/finding"
)

// The most columns of a source line that are shown, how many of them stand
// before a span far to the right, and a tab's columns.
const (
	excerptColumns = 160
	excerptBefore  = 48
	tabColumns     = 4
)

// excerpt is a source line, as much of it as is shown, and its marks.
type excerpt struct {
	line  int
	text  string
	marks string // blanks, then carets under the span
}

// excerptOf shows a place's first line. It looks at no more of the line than
// can be shown, for a line may be as long as a file.
func excerptOf(p finding.Place) excerpt {
	at := regionOf(p).from
	line := p.File.Line(at.Line)
	from := min(at.Column-1, len(line))
	to := min(from+max(p.End-p.Start, 0), len(line))
	lo, hi := window(line, from, to)
	before, pad := show(line[lo:from], excerptColumns)
	if lo > 0 {
		before, pad = "…"+before, pad+1
	}
	room := excerptColumns - pad
	inside, wide := show(line[from:min(to, hi)], room)
	after, _ := show(line[min(to, hi):hi], room-wide)
	text := before + inside + after
	if cut := hi < len(line) || shownLess(line[from:hi], room); cut {
		text += "…"
	}
	return excerpt{at.Line, strings.TrimRight(text, " "), strings.Repeat(" ", pad) + strings.Repeat("^", max(wide, 1))}
}

// window is the part of a line that is worth looking at: all of a line that
// fits, else some of what stands before the span and as much behind as there
// is room for. No character is cut in two.
func window(line string, from, to int) (lo, hi int) {
	hi = len(line)
	if hi > from+4*excerptColumns {
		hi = boundary(line, from+4*excerptColumns)
	}
	if from > 8*excerptColumns || columnsShown(line[:to]) > excerptColumns {
		lo = boundary(line, max(from-excerptBefore, 0))
	}
	return lo, max(hi, from)
}

// boundary is the start of the character that the offset lies in.
func boundary(line string, at int) int {
	for back := 0; back < utf8.UTFMax && at > 0 && !utf8.RuneStart(line[at]); back++ {
		at--
	}
	return at
}

func columnsShown(text string) int {
	_, n := show(text, 16*excerptColumns)
	return n
}

func shownLess(text string, room int) bool {
	_, n := show(text, room+1)
	return n > room
}

// show writes a text for the terminal, up to so many columns, and says how
// many it took.
func show(text string, room int) (string, int) {
	var b strings.Builder
	taken, marks := 0, 0
	for len(text) > 0 {
		r, size := utf8.DecodeRuneInString(text)
		cell := cellOf(r, text[:size], &marks)
		wide := columnsOf(cell)
		if taken+wide > room {
			break
		}
		b.WriteString(cell)
		taken += wide
		text = text[size:]
	}
	return b.String(), taken
}

// stackedMarks is how many accents may stand on one letter before they are
// written out: no writing needs more, and endless ones take no room at all.
const stackedMarks = 4

func cellOf(r rune, raw string, marks *int) string {
	if r == '\t' {
		*marks = 0
		return strings.Repeat(" ", tabColumns)
	}
	return stacked(r, raw, marks)
}

// stacked is a character as it is shown, given how many accents it follows.
func stacked(r rune, raw string, marks *int) string {
	if !unicode.In(r, unicode.Mn, unicode.Me) {
		*marks = 0
		return visible(r, raw)
	}
	if *marks++; *marks > stackedMarks {
		return numbered(r)
	}
	return raw
}
