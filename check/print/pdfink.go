package print

import (
	"math"

	"github.com/go-pdf/fpdf"

	"hame/check/draw"
)

// inkwell draws a picture's items on a page: scaled, and moved to its place.
type inkwell struct {
	pdf   *fpdf.Fpdf
	scale float64
	dx    float64
	dy    float64
}

func (w inkwell) at(p draw.Point) (x, y float64) { return w.dx + p.X*w.scale, w.dy + p.Y*w.scale }

func (w inkwell) items(items []draw.Item) {
	for _, i := range items {
		switch i := i.(type) {
		case draw.Line:
			w.line(i)
		case draw.Circle:
			x, y := w.at(i.Centre)
			if style := w.ink(i.Ink); style != "" {
				w.pdf.Circle(x, y, i.RadiusMM*w.scale, style)
			}
		case draw.Arc:
			w.arc(i)
		case draw.Text:
			w.text(i)
		case draw.Group:
			w.items(i.Items)
		}
	}
}

// ink sets how a shape is drawn, and gives the style of its path, "" where
// nothing of it shows.
func (w inkwell) ink(i draw.Ink) string {
	style := ""
	if i.Fill != "" {
		w.pdf.SetFillColor(rgb(i.Fill))
		style = "F"
	}
	if i.WidthMM <= 0 {
		return style
	}
	w.pdf.SetDrawColor(rgb(i.Colour))
	w.pdf.SetLineWidth(i.WidthMM * w.scale)
	if i.DashMM > 0 {
		w.pdf.SetLineCapStyle("butt")
		w.pdf.SetDashPattern([]float64{i.DashMM * w.scale, i.DashMM * w.scale}, 0)
	} else {
		w.pdf.SetLineCapStyle("round")
		w.pdf.SetDashPattern(nil, 0)
	}
	return style + "D"
}

func (w inkwell) line(l draw.Line) {
	style := w.ink(l.Ink)
	if style == "" || len(l.Points) == 0 {
		return
	}
	w.pdf.MoveTo(w.at(l.Points[0]))
	for _, p := range l.Points[1:] {
		w.pdf.LineTo(w.at(p))
	}
	if l.Closed {
		w.pdf.ClosePath()
	}
	w.pdf.DrawPath(style)
}

// arc draws a part of a circle as curves of at most a quarter each, which are
// off by less than 0.03 % of the radius.
func (w inkwell) arc(a draw.Arc) {
	style := w.ink(a.Ink)
	if style == "" {
		return
	}
	turn := (a.To - a.From) * math.Pi / 180
	parts := min(max(1, math.Ceil(math.Abs(turn)/(math.Pi/2))), 8)
	step := turn / parts
	reach := 4.0 / 3 * math.Tan(step/4) * a.RadiusMM
	on := func(angle, along float64) (x, y float64) {
		sin, cos := math.Sincos(angle)
		return w.at(draw.Point{X: a.Centre.X + a.RadiusMM*cos - along*sin, Y: a.Centre.Y + a.RadiusMM*sin + along*cos})
	}
	from := a.From * math.Pi / 180
	w.pdf.MoveTo(on(from, 0))
	for range int(parts) {
		x1, y1 := on(from, reach)
		x2, y2 := on(from+step, -reach)
		x, y := on(from+step, 0)
		w.pdf.CurveBezierCubicTo(x1, y1, x2, y2, x, y)
		from += step
	}
	w.pdf.DrawPath(style)
}

// text sets words at the size that they were measured for.
func (w inkwell) text(t draw.Text) {
	if t.Words == "" || t.SizeMM <= 0 {
		return
	}
	f := face{bold: t.Bold}
	w.pdf.SetFont(fontName, f.style(), t.SizeMM*w.scale*pointsPerMM)
	w.pdf.SetTextColor(rgb(t.Colour))
	x, y := w.at(t.At)
	before := 0.0
	switch t.Anchor {
	case draw.Middle:
		before = t.WidthMM() / 2 * w.scale
	case draw.End:
		before = t.WidthMM() * w.scale
	}
	if !t.Turned {
		w.pdf.Text(x-before, y, t.Words)
		return
	}
	w.pdf.TransformBegin()
	w.pdf.TransformRotate(90, x, y)
	w.pdf.Text(x-before, y, t.Words)
	w.pdf.TransformEnd()
}
