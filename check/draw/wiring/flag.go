package wiring

import (
	"fmt"

	"hame/check/draw"
	"hame/check/draw/layered"
	"hame/check/draw/symbols"
)

// cause says why a wire ends at a flag.
type cause uint8

const (
	returns cause = iota // on a point of the return side
	sheet                // it goes on on another sheet
	capped
	unknown // where it ends could not be read
)

// flag is the end of a wire that goes on elsewhere.
type flag struct {
	cause cause
	name  string // of the terminal that it leads to
	right bool   // its wire leaves at its right: it stands left of what it belongs to
	// bonded: the point of the return side is a chassis, or on one.
	bonded bool
	other  *flag  // on the other sheet
	sheet  int    // that the terminal is on; 0 where that need not be said
	row    string // of this flag on its own sheet
}

// from reports whether a wire comes in from another sheet: such flags stand at the
// left edge.
func (f *flag) from() bool { return f.cause == sheet && f.right }

// words are the flag's lines.
func (f *flag) words() (first, second string) {
	switch f.cause {
	case capped:
		return "capped", ""
	case unknown:
		return "?", ""
	case sheet:
		return f.name, f.reference()
	}
	if f.sheet > 0 {
		return fmt.Sprintf("%s, sheet %d", f.name, f.sheet), ""
	}
	return f.name, ""
}

// reference says where a wire goes on. Rows are known once all is laid out.
func (f *flag) reference() string {
	way := "to"
	if f.right {
		way = "from"
	}
	row := "?"
	if f.other != nil {
		row = f.other.row
	}
	return fmt.Sprintf("%s sheet %d, row %s", way, f.sheet, row)
}

const (
	flagPointMM = 2.4 // the point of a flag
	markMM      = 4.4 // the sign of a return
)

func (f *flag) widthMM() float64 {
	first, _ := f.words()
	wide := draw.WidthMM(first, symbols.DetailMM, true)
	if f.cause == sheet {
		return max(wide, draw.WidthMM("from sheet 88, row WW", symbols.DetailMM, false)) + flagPointMM + 2
	}
	return wide + markMM + 1
}

func (f *flag) layered(layer int) layered.Node {
	r := layered.Row{UpMM: 2, DownMM: 4}
	if f.cause == sheet {
		r.UpMM = 4
	}
	return layered.Node{Layer: layer, WidthMM: 2 * float64(int(f.widthMM()/2)+1), Rows: []layered.Row{r}}
}

// quill draws from a flag's port outwards: 1 to the right, -1 to the left.
type quill struct {
	x, y, outwards float64
}

func (q quill) at(x, y float64) draw.Point { return draw.Point{X: q.x + q.outwards*x, Y: q.y + y} }

func (q quill) line(xy ...float64) draw.Line {
	l := draw.Line{Ink: draw.Ink{WidthMM: 0.35, Colour: draw.Black}}
	for i := 0; i+1 < len(xy); i += 2 {
		l.Points = append(l.Points, q.at(xy[i], xy[i+1]))
	}
	return l
}

func (q quill) say(x, y float64, bold bool, words string) draw.Text {
	t := draw.Text{At: q.at(x, y), Words: words, SizeMM: symbols.DetailMM, Bold: bold}
	if q.outwards < 0 {
		t.Anchor = draw.End
	}
	return t
}

// draw draws the flag.
func (f *flag) draw(q quill) []draw.Item {
	first, second := f.words()
	switch f.cause {
	case sheet:
		w := f.widthMM()
		edge := q.line(0, 0, flagPointMM, -2.8, w, -2.8, w, 2.8, flagPointMM, 2.8)
		edge.Closed = true
		return []draw.Item{edge, q.say(flagPointMM, -0.4, true, first), q.say(flagPointMM, 2, false, second)}
	case capped:
		return []draw.Item{q.line(0, 0, 1.5, 0), q.line(1.5, -1, 2.5, -1, 2.5, 1, 1.5, 1), q.say(markMM, 0.7, false, first)}
	case unknown:
		return []draw.Item{q.line(0, 0, 2, 0), q.say(2.6, 0.7, true, first)}
	}
	if !f.bonded {
		bar := q.line(2.4, -1.4, 2.4, 1.4)
		bar.Ink.WidthMM = 1
		return []draw.Item{q.line(0, 0, 2.4, 0), bar, q.say(markMM, 0.7, false, first)}
	}
	return []draw.Item{
		q.line(0, 0, 2, 0, 2, 1.2), q.line(0.5, 1.2, 3.5, 1.2), q.line(1, 2, 3, 2), q.line(1.5, 2.8, 2.5, 2.8),
		q.say(markMM, 0.7, false, first),
	}
}
