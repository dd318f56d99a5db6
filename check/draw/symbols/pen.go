package symbols

import (
	"math"

	"hame/check/draw"
)

// pen draws one symbol. What it draws is turned round where the symbol is.
type pen struct {
	plan    *Plan
	rows    []Row
	y       []float64
	wide    float64
	ink     draw.Ink
	flipped bool
	items   []draw.Item
}

func (p *pen) x(x float64) float64 {
	if p.flipped {
		return p.wide - x
	}
	return x
}

// middle is half way between the edges.
func (p *pen) middle() float64 { return p.wide / 2 }

// line joins points given as x, y, x, y …
func (p *pen) line(xy ...float64) { p.shape(p.ink, false, xy) }

// solid is a line that the machine's own have drawn through too: inner strokes.
func (p *pen) solid(xy ...float64) { p.shape(p.through(), false, xy) }

// filled is a closed shape, black inside.
func (p *pen) filled(xy ...float64) {
	i := p.through()
	i.Fill = draw.Black
	p.shape(i, true, xy)
}

func (p *pen) through() draw.Ink {
	i := p.ink
	i.DashMM = 0
	return i
}

func (p *pen) shape(i draw.Ink, closed bool, xy []float64) {
	l := draw.Line{Ink: i, Closed: closed}
	for k := 0; k+1 < len(xy); k += 2 {
		l.Points = append(l.Points, draw.Point{X: p.x(xy[k]), Y: xy[k+1]})
	}
	p.items = append(p.items, l)
}

// rect is a rectangle round a middle.
func (p *pen) rect(x, y, halfWide, halfHigh float64) {
	p.shape(p.ink, true, []float64{x - halfWide, y - halfHigh, x + halfWide, y - halfHigh, x + halfWide, y + halfHigh, x - halfWide, y + halfHigh})
}

func (p *pen) circle(x, y, r float64) {
	p.items = append(p.items, draw.Circle{Centre: draw.Point{X: p.x(x), Y: y}, RadiusMM: r, Ink: p.ink})
}

func (p *pen) dot(x, y, r float64) {
	p.items = append(p.items, draw.Circle{Centre: draw.Point{X: p.x(x), Y: y}, RadiusMM: r, Ink: draw.Ink{Fill: draw.Black}})
}

// ring is a terminal: a small circle with the paper in it.
func (p *pen) ring(x, y float64) {
	i := p.through()
	i.Fill = draw.Paper
	p.items = append(p.items, draw.Circle{Centre: draw.Point{X: p.x(x), Y: y}, RadiusMM: ringMM, Ink: i})
}

const ringMM = 0.6

// arc is a part of a circle; degrees clockwise from the right.
func (p *pen) arc(x, y, r, from, to float64) {
	if p.flipped {
		from, to = 180-to, 180-from
	}
	p.items = append(p.items, draw.Arc{Centre: draw.Point{X: p.x(x), Y: y}, RadiusMM: r, From: from, To: to, Ink: p.through()})
}

// sign is a letter inside a symbol, its middle at a point.
func (p *pen) sign(x, y, sizeMM float64, words string) {
	p.items = append(p.items, draw.Text{At: draw.Point{X: p.x(x), Y: y + 0.35*sizeMM}, Words: words, SizeMM: sizeMM, Anchor: draw.Middle, Bold: true})
}

// words writes at a point; Start and End change places where it is turned.
func (p *pen) words(x, y, sizeMM float64, a draw.Anchor, bold bool, words string) {
	if p.flipped && a != draw.Middle {
		a = draw.Start + draw.End - a
	}
	p.items = append(p.items, draw.Text{At: draw.Point{X: p.x(x), Y: y}, Words: words, SizeMM: sizeMM, Anchor: a, Bold: bold})
}

// pane is the ground of a box.
func (p *pen) pane(b draw.Box) {
	i := p.ink
	i.Fill = draw.Paper
	p.items = append(p.items, b.Frame(i))
}

// above writes the name over the first row, and below the details under the
// last, in the middle.
func (p *pen) caption(aboveMM, belowMM float64) {
	p.words(p.middle(), p.y[0]-aboveMM, NameMM, draw.Middle, true, p.plan.words.Name)
	y := p.y[len(p.y)-1] + belowMM
	for _, d := range p.plan.words.Details {
		y += lineMM
		p.words(p.middle(), y, DetailMM, draw.Middle, false, d)
	}
}

// lineMM is from one line of words to the next.
const lineMM = 2.6

// even rounds a height up to the grid.
func even(mm float64) float64 { return gridMM * math.Ceil(mm/gridMM-1e-9) }

// longest is how much room the words beside a symbol need.
func (w Words) longest() float64 {
	most := draw.WidthMM(w.Name, NameMM, true)
	for _, d := range w.Details {
		most = max(most, draw.WidthMM(d, DetailMM, false))
	}
	return most
}
