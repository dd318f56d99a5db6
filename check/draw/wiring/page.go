package wiring

import (
	"fmt"

	"hame/check/draw"
	"hame/check/wording"
)

// The measures of a page, in mm.
const (
	edgeMM    = 6  // from the paper to the frame
	zoneMM    = 5  // the band with the rows' letters
	airMM     = 5  // from the band to the drawing
	rowMM     = 40 // of a row with its letter
	headMM    = 8  // of the line that says what stands against building
	betweenMM = 9  // from the circuits to the return side
	leastWide = 200
	leastHigh = 120
)

// papers are the sizes of pages, lying: A4 and A3 by ISO 216, Letter by ANSI/ASME
// Y14.1 (8.5 by 11 inches).
var papers = map[string][2]float64{"a4": {297, 210}, "a3": {420, 297}, "letter": {279.4, 215.9}}

// What is left of a page that has margins, a title, cautions, and what stands
// against building.
const (
	besideMM = 20
	abovesMM = 80
)

// frame is where things stand on a page.
type frame struct {
	wide, high float64
	edge       float64 // from the paper to the frame
	scale      float64
	circuits   draw.Point // the origins of the two blocks
	low        draw.Point
	strip      float64 // where the strip with key and title begins
	rows       int     // that have letters
}

// frameOf measures a page. One inside pages lies, unless more of it can be read
// when it is held upright.
func (s *scheme) frameOf(v *view, o Options) frame {
	size, fixed := papers[o.Paper]
	f := s.framed(v, o, size, fixed)
	if o.InPage && f.scale < o.Scale {
		if upright := s.framed(v, o, [2]float64{size[1], size[0]}, fixed); upright.scale > f.scale {
			return upright
		}
	}
	return f
}

func (s *scheme) framed(v *view, o Options, size [2]float64, fixed bool) frame {
	f := frame{scale: o.Scale, edge: edgeMM}
	if o.InPage {
		f.edge = inkMM
		size[0], size[1] = size[0]-besideMM, size[1]-abovesMM
	}
	wide, high := v.size()
	around := 2 * (f.edge + zoneMM + airMM)
	above := f.edge + airMM
	if o.Verdict != "" && !o.InPage {
		above += headMM
	}
	f.wide, f.high = max(leastWide, wide*f.scale+around), 0
	if fixed {
		f.wide, f.high = size[0], size[1]
	}
	below := s.stripOf(v, o, f).high
	if fixed {
		f.scale = min(f.scale, (f.wide-around)/wide, (f.high-above-below-airMM-f.edge)/high)
	} else {
		f.high = max(leastHigh, above+high*f.scale+airMM+below+f.edge)
	}
	f.strip = f.high - f.edge - below
	left := (f.wide - wide*f.scale) / 2
	f.circuits = draw.Point{X: left, Y: above + max(0, (f.strip-airMM-above-high*f.scale)/2)}
	f.low = draw.Point{X: left, Y: f.circuits.Y + f.scale*(high-v.low.layout.HeightMM)}
	f.rows = max(1, int((f.strip-f.edge)/rowMM+0.5))
	return f
}

// inkMM is the room for a line at the edge of a picture.
const inkMM = 0.3

// size is how much room the drawing takes.
func (v *view) size() (wide, high float64) {
	a, b := v.circuits.layout, v.low.layout
	wide, high = max(1, a.WidthMM, b.WidthMM), max(1, a.HeightMM)
	if len(v.low.nodes) > 0 {
		high = max(high, v.under()+betweenMM+b.HeightMM)
	}
	return wide, high
}

// under is how far down the circuits reach where the return side stands below
// them: often no further than half way.
func (v *view) under() float64 {
	const asideMM = 8
	right, low := v.low.layout.WidthMM+asideMM, 0.0
	k := v.circuits
	for i, n := range k.nodes {
		at := k.layout.Nodes[i]
		if at.LeftMM < right {
			rows := n.layered().Rows
			low = max(low, at.RowsMM[len(rows)-1]+rows[len(rows)-1].DownMM)
		}
	}
	for _, w := range k.layout.Wires {
		for i, p := range w.Points {
			if i > 0 && min(p.X, w.Points[i-1].X) < right {
				low = max(low, p.Y, w.Points[i-1].Y)
			}
		}
	}
	return low
}

// fit reports whether all sheets that could be parted fit their paper in the scale
// that was asked for.
func (s *scheme) fit(views []*view, o Options) bool {
	for _, v := range views {
		boxes := len(v.circuits.at) + len(v.low.at)
		if boxes > 1 && s.frameOf(v, o).scale < o.Scale {
			return false
		}
	}
	return true
}

// row is the number of the row that a height lies in; what is left over at the
// foot belongs to the last.
func (f frame) row(y float64) int { return min(max(0, int((y-f.edge)/rowMM)), f.rows-1) }

// letter names a row: A to Z, then AA.
func letter(n int) string {
	name := ""
	for n++; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// address gives every flag the row that it stands in, so that its counterpart can
// name it.
func (s *scheme) address(views []*view, o Options) {
	for _, v := range views {
		f := s.frameOf(v, o)
		v.circuits.address(f, f.circuits)
		v.low.address(f, f.low)
	}
}

func (k *block) address(f frame, origin draw.Point) {
	for i, n := range k.nodes {
		if n.flag != nil {
			n.flag.row = letter(f.row(origin.Y + f.scale*k.layout.Nodes[i].RowsMM[0]))
		}
	}
}

// page draws one sheet.
func (s *scheme) page(v *view, of int, o Options) *draw.Picture {
	f := s.frameOf(v, o)
	p := &draw.Picture{Name: "wiring", Title: "Wiring diagram", WidthMM: f.wide, HeightMM: f.high}
	if of > 1 {
		p.Name, p.Title = fmt.Sprintf("wiring-%d", v.number), fmt.Sprintf("Wiring diagram, sheet %d of %d", v.number, of)
	}
	p.Describe = s.describe(v)
	s.border(p, f, o)
	p.Add(placed(s.paint(v.circuits), f.scale, f.circuits)...)
	if len(v.low.nodes) > 0 {
		words := draw.Text{At: draw.Point{Y: -betweenMM + 4}, Words: "Return side", SizeMM: 2.8, Bold: true}
		p.Add(placed(append([]draw.Item{words}, s.paint(v.low)...), f.scale, f.low)...)
	}
	s.stripOf(v, o, f).draw(p, s, v, of, o, f)
	return p
}

// describe says what the sheet shows, for those who hear it.
func (s *scheme) describe(v *view) string {
	devices, wires := 0, 0
	for _, k := range []*block{v.circuits, v.low} {
		for _, n := range k.nodes {
			if n.box != nil {
				devices++
			}
		}
		for _, r := range k.runs {
			if r.wire != nil {
				wires++
			}
		}
	}
	text := fmt.Sprintf("%d devices and %d wires of harness %s: sources at the left, loads at the right, the return side below.", devices, wires, wording.Named(s.harness.Name))
	if s.mode != nil {
		text += " What is live in " + s.mode.name + " is drawn heavier."
	}
	return text
}

// border draws the frame, the rows' letters, and what stands against building.
func (s *scheme) border(p *draw.Picture, f frame, o Options) {
	thin := draw.Ink{WidthMM: 0.2, Colour: draw.Ash}
	p.Add(draw.Box{Left: f.edge, Top: f.edge, Right: f.wide - f.edge, Bottom: f.high - f.edge}.Frame(draw.Ink{WidthMM: 0.5, Colour: draw.Black}))
	for _, x := range []float64{f.edge + zoneMM, f.wide - f.edge - zoneMM} {
		p.Add(draw.Line{Points: []draw.Point{{X: x, Y: f.edge}, {X: x, Y: f.strip}}, Ink: thin})
	}
	for n := range f.rows {
		y := f.edge + rowMM*float64(n)
		end := y + rowMM
		if n == f.rows-1 {
			end = f.strip
		}
		for _, x := range []float64{f.edge, f.wide - f.edge - zoneMM} {
			p.Add(draw.Line{Points: []draw.Point{{X: x, Y: y}, {X: x + zoneMM, Y: y}}, Ink: thin})
			p.Add(draw.Text{At: draw.Point{X: x + zoneMM/2, Y: (y+end)/2 + 1}, Words: letter(n), SizeMM: 2.8, Anchor: draw.Middle, Bold: true, Colour: draw.Black})
		}
	}
	if o.Verdict != "" && !o.InPage {
		p.Add(draw.Text{At: draw.Point{X: f.wide / 2, Y: f.edge + 6}, Words: o.Verdict, SizeMM: 4.5, Anchor: draw.Middle, Bold: true, Colour: draw.Alarm})
	}
}
