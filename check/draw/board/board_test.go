package board_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"hame/check/draw"
	"hame/check/draw/board"
	"hame/check/internal/yard"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// bound binds a harness's text.
func bound(name, text string) *harness.Harness {
	return harness.Bind(syntax.Parse(source.New(name, text)), harness.Options{}).Harness
}

// examples binds every example that holds a harness.
func examples(t *testing.T) map[string]*harness.Harness {
	t.Helper()
	all := map[string]*harness.Harness{}
	err := filepath.WalkDir("../../../examples", func(path string, _ os.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".hame" {
			return err
		}
		text, err := os.ReadFile(path)
		if h := bound(path, string(text)); h != nil {
			all[path] = h
		}
		return err
	})
	if err != nil || len(all) == 0 {
		t.Fatal("no examples:", err)
	}
	return all
}

var options = []board.Options{{}, {Scale: 1}, {Scale: 10, Verdict: "NOT FOR BUILD: 1 error"}}

// TestExamples holds the geometry of every example's layout.
func TestExamples(t *testing.T) {
	for name, h := range examples(t) {
		hold(t, name, h)
	}
}

// TestGenerated holds the geometry of layouts from seeds.
func TestGenerated(t *testing.T) {
	for seed := range uint64(500) {
		hold(t, fmt.Sprint("seed ", seed), bound("seed.hame", yard.Make(seed).Print().Source))
	}
}

func hold(t *testing.T, name string, h *harness.Harness) {
	t.Helper()
	for _, o := range options {
		var once, again bytes.Buffer
		pictures := board.Pictures(h, o)
		for i, p := range pictures {
			where := fmt.Sprintf("%s, scale %d, %s", name, o.Scale, p.Name)
			inside(t, where, p)
			apart(t, where, p)
			if o.Scale > 0 && o.Scale < 10 {
				lengths(t, where, h, p, o.Scale)
			}
			write(t, &once, p)
			write(t, &again, board.Pictures(h, o)[i])
		}
		everyName(t, name, h, pictures)
		if !bytes.Equal(once.Bytes(), again.Bytes()) {
			t.Errorf("%s: twice drawn, not the same bytes", name)
		}
		wellFormed(t, name, &once)
	}
}

func write(t *testing.T, to io.Writer, p *draw.Picture) {
	t.Helper()
	if err := draw.SVG(to, p); err != nil {
		t.Error(err)
	}
}

func wellFormed(t *testing.T, name string, text io.Reader) {
	t.Helper()
	d := xml.NewDecoder(text)
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
	}
}

// inside: nothing reaches over the page's edge.
func inside(t *testing.T, where string, p *draw.Picture) {
	t.Helper()
	box, ok := draw.Bounds(p.Items...)
	if page := (draw.Box{Right: p.WidthMM, Bottom: p.HeightMM}); !ok || !box.Within(page) {
		t.Errorf("%s: %+v is not within the page %+v", where, box, page)
	}
}

// apart: no words run into others, and none into a place.
func apart(t *testing.T, where string, p *draw.Picture) {
	t.Helper()
	type set struct {
		draw.Box
		words, of string
	}
	var all []set
	for _, i := range p.Items {
		g, ok := i.(draw.Group)
		if !ok {
			continue
		}
		for _, inner := range g.Items {
			switch inner := inner.(type) {
			case draw.Text:
				all = append(all, set{inner.Box(), inner.Words, g.Name})
			case draw.Circle:
				b, _ := draw.Bounds(inner)
				all = append(all, set{b, "peg", g.Name})
			case draw.Line:
				if inner.Closed { // a card's frame
					b, _ := draw.Bounds(inner)
					all = append(all, set{b, "card", g.Name})
				}
			}
		}
	}
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.Overlaps(b.Box) && (a.of != b.of || a.words != "card" && b.words != "card") {
				t.Errorf("%s: %q of %s and %q of %s overlap", where, a.words, a.of, b.words, b.of)
			}
		}
	}
}

// lengths: along its line a bundle is as long as it is declared, unless dashes
// say that it could not be.
func lengths(t *testing.T, where string, h *harness.Harness, p *draw.Picture, scale int) {
	t.Helper()
	want := map[string]float64{}
	for _, b := range h.Bundles {
		want[b.Name] = b.LengthM * 1000 / float64(scale)
	}
	for _, i := range p.Items {
		g, ok := i.(draw.Group)
		if !ok || g.Sort != draw.Bundle {
			continue
		}
		l := g.Items[0].(draw.Line)
		long := 0.0
		for k := range len(l.Points) - 1 {
			long += math.Hypot(l.Points[k+1].X-l.Points[k].X, l.Points[k+1].Y-l.Points[k].Y)
		}
		if l.Ink.DashMM > 0 && long < want[g.Name] || l.Ink.DashMM == 0 && math.Abs(long-want[g.Name]) > 1e-6 {
			t.Errorf("%s: %s is %g mm long, want %g", where, g.Name, long, want[g.Name])
		}
	}
}

// everyName: each bundle that joins two places is drawn once or told as the one
// that closes a ring, and each place of a bundle is there once.
func everyName(t *testing.T, where string, h *harness.Harness, pictures []*draw.Picture) {
	t.Helper()
	count := map[string]int{}
	for _, p := range pictures {
		for _, i := range p.Items {
			if g, ok := i.(draw.Group); ok {
				count[g.Name]++
			}
		}
	}
	for _, place := range h.Places {
		if len(place.Bundles) > 0 && count[place.Name] != 1 {
			t.Errorf("%s: place %s is drawn %d times", where, place.Name, count[place.Name])
		}
	}
	for _, b := range h.Bundles {
		if b.From != nil && b.To != nil && count[b.Name] > 1 {
			t.Errorf("%s: bundle %s is drawn %d times", where, b.Name, count[b.Name])
		}
	}
}

// TestRing: of bundles in a ring one is told in words, at the place where the
// walk ends.
func TestRing(t *testing.T) {
	h := bound("ring.hame", `harness ring { system 12 V }
place a, b, c
bundle ab a -> b 1 m
bundle bc b -> c 1 m
bundle ca c -> a 1 m
bundle aa a -> a 1 m
`)
	pictures := board.Pictures(h, board.Options{})
	if len(pictures) != 1 {
		t.Fatal(len(pictures), "pictures, want one")
	}
	var svg bytes.Buffer
	write(t, &svg, pictures[0])
	for _, want := range []string{"closes a ring: bc, 1.00 m", "ab, 1.00 m", "ca, 1.00 m"} {
		if !bytes.Contains(svg.Bytes(), []byte(want)) {
			t.Errorf("%q is not in the drawing", want)
		}
	}
}
