package print

import (
	"math"

	"github.com/go-pdf/fpdf"

	"hame/check/draw"
)

// The sizes of type, as ems in mm: 12, 9.5, 8.5, 7.5 and 6.5 points.
const (
	titleMM = 4.23
	bodyMM  = 3.35
	cellMM  = 3.0
	smallMM = 2.65
	tinyMM  = 2.3
)

const pointsPerMM = 72 / 25.4

// lineMM is how far lines of a size stand apart.
func lineMM(sizeMM float64) float64 { return 1.28 * sizeMM }

// face is how words are set.
type face struct {
	bold   bool
	sizeMM float64
	anchor draw.Anchor
}

func (f face) measure() measure {
	return func(r rune) float64 { return draw.WidthMM(string(r), f.sizeMM, f.bold) }
}

func (f face) style() string {
	if f.bold {
		return "B"
	}
	return ""
}

func (l *layout) put(m mark) { l.page.marks = append(l.page.marks, m) }

// words sets words that are inked on a base line.
func (l *layout) words(x, y float64, text string, f face) {
	if text == "" {
		return
	}
	switch wide := draw.WidthMM(text, f.sizeMM, f.bold); f.anchor {
	case draw.Middle:
		x -= wide / 2
	case draw.End:
		x -= wide
	}
	l.put(func(pdf *fpdf.Fpdf) {
		pdf.SetFont(fontName, f.style(), f.sizeMM*pointsPerMM)
		pdf.SetTextColor(0, 0, 0)
		pdf.Text(x, y, text)
	})
}

func (l *layout) rule(x0, y0, x1, y1, widthMM float64) {
	l.put(func(pdf *fpdf.Fpdf) {
		plain(pdf, widthMM)
		pdf.Line(x0, y0, x1, y1)
	})
}

// dashed draws a rule to cut or align by.
func (l *layout) dashed(x0, y0, x1, y1 float64) {
	l.put(func(pdf *fpdf.Fpdf) {
		plain(pdf, 0.15)
		pdf.SetDashPattern([]float64{1.5, 1.5}, 0)
		pdf.Line(x0, y0, x1, y1)
		pdf.SetDashPattern(nil, 0)
	})
}

func (l *layout) box(x, y, wide, high, widthMM float64) {
	l.put(func(pdf *fpdf.Fpdf) {
		plain(pdf, widthMM)
		pdf.Rect(x, y, wide, high, "D")
	})
}

// band fills a box: in the light grey of tables' heads, or a wire's colour.
func (l *layout) band(x, y, wide, high float64, c draw.Colour) {
	l.put(func(pdf *fpdf.Fpdf) {
		pdf.SetFillColor(rgb(c))
		pdf.Rect(x, y, wide, high, "F")
	})
}

func plain(pdf *fpdf.Fpdf, widthMM float64) {
	pdf.SetLineWidth(widthMM)
	pdf.SetDrawColor(0, 0, 0)
	pdf.SetLineCapStyle("butt")
}

func rgb(c draw.Colour) (r, g, b int) {
	x, y, z := c.RGB()
	return int(x), int(y), int(z)
}

// finite reports whether all of a drawing's figures can be printed.
func finite(list ...float64) bool {
	const most = 1e6 // mm: a kilometre
	for _, v := range list {
		if math.IsNaN(v) || math.Abs(v) > most {
			return false
		}
	}
	return true
}
