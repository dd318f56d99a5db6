package draw_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"hame/check/draw"
)

// TestWidth holds measured widths to those of another reader of the same font.
func TestWidth(t *testing.T) {
	other := fpdf.New("P", "mm", "A4", "")
	other.AddUTF8FontFromBytes("go", "", goregular.TTF)
	other.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	const pointsPerMM = 72 / 25.4
	for _, words := range []string{"w15", "2.5 mm2 violet", "NOT FOR BUILD: 2 errors", "–20…85 °C", "Ωμ≤"} {
		for style, heavy := range map[string]bool{"": false, "B": true} {
			other.SetFont("go", style, 10*pointsPerMM)
			want, got := other.GetStringWidth(words), draw.WidthMM(words, 10, heavy)
			if math.Abs(want-got) > 0.02*float64(len(words)) { // it rounds each letter to a thousandth of an em
				t.Errorf("%q heavy %v: %g mm, the other reader says %g", words, heavy, got, want)
			}
		}
	}
}

func TestCut(t *testing.T) {
	const words, size = "front_left.neg to g2", 2.5
	for _, most := range []float64{0, 1, 5, 10, 20, 1000} {
		cut := draw.Cut(words, size, false, most)
		if w := draw.WidthMM(cut, size, false); w > most {
			t.Errorf("cut to %g mm it is %g mm long: %q", most, w, cut)
		}
		if whole := draw.WidthMM(words, size, false) <= most; whole != (cut == words) {
			t.Errorf("cut to %g mm: %q", most, cut)
		}
	}
}

// TestBox: a turned text's box is that of the straight one, turned.
func TestBox(t *testing.T) {
	for _, anchor := range []draw.Anchor{draw.Start, draw.Middle, draw.End} {
		straight := draw.Text{Words: "battery", SizeMM: 3, Anchor: anchor}
		turned := straight
		turned.Turned = true
		s, u := straight.Box(), turned.Box()
		// Turned by a quarter to the left (x, y) becomes (y, -x).
		want := draw.Box{Left: s.Top, Top: -s.Right, Right: s.Bottom, Bottom: -s.Left}
		for _, d := range []float64{u.Left - want.Left, u.Top - want.Top, u.Right - want.Right, u.Bottom - want.Bottom} {
			if math.Abs(d) > 1e-9 {
				t.Fatalf("anchor %d: %+v, want %+v", anchor, u, want)
			}
		}
	}
}

// every has one item of each sort, with words that would break out of XML.
func every() *draw.Picture {
	ink := draw.Ink{WidthMM: 0.5, Colour: draw.Black, Fill: draw.White, DashMM: 1}
	return &draw.Picture{
		Title: `<script>"&`, Describe: "]]>\x00\x1b", WidthMM: 100, HeightMM: 50,
		Items: []draw.Item{draw.Group{Sort: draw.Wire, Name: `w"1`, Tip: "</title>", Live: true, Items: []draw.Item{
			draw.Line{Points: []draw.Point{{X: 1, Y: 2}, {X: 3, Y: 4}}, Ink: ink},
			draw.Circle{Centre: draw.Point{X: 9, Y: 9}, RadiusMM: 2, Ink: ink},
			draw.Arc{Centre: draw.Point{X: 20, Y: 9}, RadiusMM: 2, From: 0, To: 270, Ink: ink},
			draw.Text{At: draw.Point{X: 5, Y: 5}, Words: "<&>\x00\xff", SizeMM: 3, Turned: true},
		}}},
	}
}

// TestSVG reads the drawing back with a reader of XML.
func TestSVG(t *testing.T) {
	var out bytes.Buffer
	if err := draw.SVG(&out, every()); err != nil {
		t.Fatal(err)
	}
	count, words := map[string]int{}, ""
	d := xml.NewDecoder(bytes.NewReader(out.Bytes()))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err, out.String())
		}
		switch token := token.(type) {
		case xml.StartElement:
			count[token.Name.Local]++
		case xml.CharData:
			words += string(token)
		}
	}
	for element, want := range map[string]int{"svg": 1, "title": 2, "desc": 1, "rect": 1, "g": 1, "polyline": 1, "circle": 1, "path": 1, "text": 1} {
		if count[element] != want {
			t.Errorf("%d of %s, want %d", count[element], element, want)
		}
	}
	if !strings.Contains(words, `<script>"&`) || !strings.Contains(words, "<&>\uFFFD") {
		t.Errorf("words were lost: %q", words)
	}
}

// TestMoved: what is moved and moved back is where it was.
func TestMoved(t *testing.T) {
	for _, i := range every().Items {
		before, _ := draw.Bounds(i)
		there := draw.Moved(i, 7, -3)
		box, _ := draw.Bounds(there)
		if d := (draw.Point{X: box.Left - before.Left, Y: box.Bottom - before.Bottom}); math.Abs(d.X-7)+math.Abs(d.Y+3) > 1e-9 {
			t.Errorf("moved by %+v", d)
		}
		if back, _ := draw.Bounds(draw.Moved(there, -7, 3)); math.Abs(back.Left-before.Left) > 1e-9 {
			t.Errorf("%+v, was %+v", back, before)
		}
	}
}

// TestColours: each colour of the language prints differently.
func TestColours(t *testing.T) {
	seen := map[[3]uint8]string{}
	for _, name := range colours {
		r, g, b := draw.OfWire(name).RGB()
		if other := seen[[3]uint8{r, g, b}]; other != "" {
			t.Errorf("%s prints as %s does", name, other)
		}
		seen[[3]uint8{r, g, b}] = name
	}
	if draw.OfWire("") != draw.Ash || draw.OfWire("shade") != draw.Ash {
		t.Error("what is no colour of a wire is drawn in ash")
	}
}

// colours of the language, once more.
var colours = strings.Fields("black brown red orange yellow green blue violet grey white pink turquoise tan")
