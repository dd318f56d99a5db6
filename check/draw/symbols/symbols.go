// Package symbols draws the devices of a wiring diagram: generic shapes in the
// manner of IEC 60617, each from its own geometry, one for every kind of the
// language. A symbol is rows one under the other; each has a terminal at its left,
// its right or both, so that a diagram may spread the rows to where the wires run.
package symbols

import (
	"hame/check/draw"
	"hame/lang/kinds"
)

// The type of symbols, in mm: no smaller than can be read on paper.
const (
	NameMM   = 2.4
	DetailMM = 2.0
)

// gridMM is what all heights are whole numbers of, so that lines either fall
// together or stand well apart.
const gridMM = 2

// Row is one line of a symbol. Left and Right are the terminals at its two ends,
// and there are none where Has is false: a device's only terminal is named "".
type Row struct {
	Left, Right       string
	HasLeft, HasRight bool
	// UpMM and DownMM are the room that it needs above and below its line.
	UpMM, DownMM float64
	// Words are told in the row: a way's device, an input's name.
	Words string
}

// Words are what is written beside a symbol.
type Words struct {
	Name    string
	Details []string // each a line
	// Rows has the words of rows by their terminal: "2" of a panel.
	Rows map[string]string
}

// Style is how a symbol is drawn.
type Style struct {
	Own   bool // it is the machine's own: dashed
	Heavy bool // it stands under voltage
}

func (s Style) ink() draw.Ink {
	i := draw.Ink{WidthMM: 0.35, Colour: draw.Black}
	if s.Heavy {
		i.WidthMM = 0.7
	}
	if s.Own {
		i.DashMM = 0.9
	}
	return i
}

// Plan is a symbol before it is drawn.
type Plan struct {
	Kind    *kinds.Kind
	Rows    []Row
	WidthMM float64 // at least; the leads grow with more
	given   kinds.Given
	words   Words
	shape   shape
	flipped bool
}

// shape draws the body between the two edges of a symbol.
type shape func(*pen)

// Port is where wires land on a terminal.
type Port struct {
	Terminal string
	At       draw.Point
	Right    bool // at the right edge, else at the left
}

// Symbol is a symbol drawn, its left edge at 0.
type Symbol struct {
	Items []draw.Item
	Box   draw.Box
	Ports []Port
}

// Of draws a device's symbol by itself, its rows as close as they may stand.
func Of(k *kinds.Kind, g kinds.Given, w Words, s Style) Symbol {
	p := New(k, g, w)
	return p.Draw(p.Close(), p.WidthMM, s)
}

// Close is where the rows stand when they are as close as they may.
func (p *Plan) Close() []float64 {
	var list []float64
	y := 0.0
	for i, r := range p.Rows {
		if i == 0 {
			y = r.UpMM
		} else {
			y += p.Rows[i-1].DownMM + r.UpMM
		}
		list = append(list, y)
	}
	return list
}

// Draw draws the symbol as wide as said, a row at each of the heights.
func (p *Plan) Draw(rowsMM []float64, widthMM float64, s Style) Symbol {
	pen := &pen{plan: p, rows: p.natural(), y: rowsMM, wide: widthMM, ink: s.ink(), flipped: p.flipped}
	p.shape(pen)
	last := len(rowsMM) - 1
	out := Symbol{Items: pen.items, Box: draw.Box{Top: rowsMM[0] - p.Rows[0].UpMM, Right: widthMM, Bottom: rowsMM[last] + p.Rows[last].DownMM}}
	for i, r := range p.Rows {
		if r.HasLeft {
			out.Ports = append(out.Ports, Port{r.Left, draw.Point{X: 0, Y: rowsMM[i]}, false})
		}
		if r.HasRight {
			out.Ports = append(out.Ports, Port{r.Right, draw.Point{X: widthMM, Y: rowsMM[i]}, true})
		}
	}
	return out
}

// Flip turns a plan round, so that what is at the left is at the right. See
// CanFlip for those that may be.
func (p *Plan) Flip() {
	p.flipped = !p.flipped
	p.Rows = turned(p.Rows)
}

func turned(rows []Row) []Row {
	var list []Row
	for _, r := range rows {
		r.Left, r.Right, r.HasLeft, r.HasRight = r.Right, r.Left, r.HasRight, r.HasLeft
		list = append(list, r)
	}
	return list
}

// natural are the rows as the body knows them.
func (p *Plan) natural() []Row {
	if p.flipped {
		return turned(p.Rows)
	}
	return p.Rows
}
