package draw

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// SVG writes a picture as an SVG 1.1 document. Its styles are attributes, so
// that it stands in a page of any policy; colours carry a class too, by which a
// page may print them otherwise. The same picture gives the same bytes.
func SVG(to io.Writer, p *Picture) error {
	w := bufio.NewWriter(to)
	s := svg{w: w}
	s.head(p)
	s.items(p.Items)
	s.put("</svg>\n")
	return w.Flush()
}

type svg struct{ w *bufio.Writer }

func (s svg) put(format string, args ...any) { _, _ = fmt.Fprintf(s.w, format, args...) }

func (s svg) head(p *Picture) {
	wide, high := mm(p.WidthMM), mm(p.HeightMM)
	s.put(`<svg xmlns="http://www.w3.org/2000/svg" class="picture" role="img" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="Arial, Helvetica, sans-serif" stroke-linecap="round" stroke-linejoin="round">`+"\n",
		wide, high, wide, high)
	s.put("<title>%s</title>\n", escaped(p.Title))
	if p.Describe != "" {
		s.put("<desc>%s</desc>\n", escaped(p.Describe))
	}
	s.put(`<rect class="fill-paper" width="%s" height="%s" fill="%s"/>`+"\n", wide, high, hex(Paper))
}

func (s svg) items(items []Item) {
	for _, i := range items {
		switch i := i.(type) {
		case Line:
			s.line(i)
		case Circle:
			s.put(`<circle cx="%s" cy="%s" r="%s"%s/>`+"\n", mm(i.Centre.X), mm(i.Centre.Y), mm(i.RadiusMM), ink(i.Ink))
		case Arc:
			s.arc(i)
		case Text:
			s.text(i)
		case Group:
			s.group(i)
		}
	}
}

func (s svg) line(l Line) {
	if len(l.Points) == 0 {
		return
	}
	element := "polyline"
	if l.Closed {
		element = "polygon"
	}
	points := make([]string, len(l.Points))
	for i, p := range l.Points {
		points[i] = mm(p.X) + "," + mm(p.Y)
	}
	s.put(`<%s points="%s"%s/>`+"\n", element, strings.Join(points, " "), ink(l.Ink))
}

func (s svg) arc(a Arc) {
	at := func(deg float64) (string, string) {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return mm(a.Centre.X + a.RadiusMM*cos), mm(a.Centre.Y + a.RadiusMM*sin)
	}
	x0, y0 := at(a.From)
	x1, y1 := at(a.To)
	large := 0
	if math.Abs(a.To-a.From) > 180 {
		large = 1
	}
	r := mm(a.RadiusMM)
	s.put(`<path d="M%s %s A%s %s 0 %d 1 %s %s"%s/>`+"\n", x0, y0, r, r, large, x1, y1, ink(a.Ink))
}

// text fixes the length of the words as they were measured, so that whatever
// font the reader has, nothing runs into its neighbour.
func (s svg) text(t Text) {
	if t.Words == "" {
		return
	}
	colour := t.Colour
	if colour == "" {
		colour = Black
	}
	anchor := [...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[t.Anchor]
	if t.Bold {
		anchor += ` font-weight="bold"`
	}
	turn := ""
	if t.Turned {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, mm(t.At.X), mm(t.At.Y))
	}
	s.put(`<text class="fill-%s" x="%s" y="%s" font-size="%s" fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs"%s%s>%s</text>`+"\n",
		colour, mm(t.At.X), mm(t.At.Y), mm(t.SizeMM), hex(colour), mm(t.WidthMM()), anchor, turn, escaped(t.Words))
}

func (s svg) group(g Group) {
	live := ""
	if g.Live {
		live = " live"
	}
	s.put(`<g class="%s%s" data-name="%s">`+"\n", g.Sort, live, escaped(g.Name))
	if g.Tip != "" {
		s.put("<title>%s</title>\n", escaped(g.Tip))
	}
	s.items(g.Items)
	s.put("</g>\n")
}

// ink writes how a shape is drawn.
func ink(i Ink) string {
	var b strings.Builder
	var classes []string
	if i.WidthMM > 0 {
		classes = append(classes, "line-"+string(i.Colour))
		fmt.Fprintf(&b, ` stroke="%s" stroke-width="%s"`, hex(i.Colour), mm(i.WidthMM))
	}
	if i.DashMM > 0 {
		fmt.Fprintf(&b, ` stroke-dasharray="%s" stroke-linecap="butt"`, mm(i.DashMM))
	}
	if i.Fill == "" {
		b.WriteString(` fill="none"`)
	} else {
		classes = append(classes, "fill-"+string(i.Fill))
		fmt.Fprintf(&b, ` fill="%s"`, hex(i.Fill))
	}
	if len(classes) == 0 {
		return b.String()
	}
	return fmt.Sprintf(` class="%s"`, strings.Join(classes, " ")) + b.String()
}

func hex(c Colour) string {
	r, g, b := c.RGB()
	return fmt.Sprintf("#%02x%02x%02x", r, g, b)
}

// mm writes a length with at most two decimals, which is finer than any printer.
func mm(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		v = 0 // no minus sign before nothing
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// escaped makes any text fit for XML; what XML cannot hold becomes U+FFFD.
func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder never fails
	return b.String()
}
