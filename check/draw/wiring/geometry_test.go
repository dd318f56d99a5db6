package wiring_test

import (
	"fmt"
	"math"
	"strings"

	"hame/check/draw"
	"hame/lang/harness"
)

// part is a group of a picture with what is in it.
type part struct {
	draw.Group
	box   draw.Box
	line  []draw.Point // of a wire
	half  float64      // of its width
	texts []draw.Text
}

// parts lists the groups of a picture.
func parts(p *draw.Picture) []part {
	var list []part
	for _, i := range p.Items {
		g, ok := i.(draw.Group)
		if !ok {
			continue
		}
		b, _ := draw.Bounds(g.Items...)
		made := part{Group: g, box: b}
		for _, inner := range g.Items {
			switch inner := inner.(type) {
			case draw.Text:
				if inner.Words != "" {
					made.texts = append(made.texts, inner)
				}
			case draw.Line:
				if made.line == nil {
					made.line, made.half = inner.Points, inner.Ink.WidthMM/2
				}
			}
		}
		list = append(list, made)
	}
	return list
}

// less is a box without its rim, where wires end and ink has its width.
func less(b draw.Box, mm float64) draw.Box {
	return draw.Box{Left: b.Left + mm, Top: b.Top + mm, Right: b.Right - mm, Bottom: b.Bottom - mm}
}

// stretch is the box of a straight piece of a wire, its ink with it.
type stretch struct {
	wire  int
	level bool
	box   draw.Box
}

func stretches(list []part) []stretch {
	const rounding = 0.01
	var out []stretch
	for w, p := range list {
		half := p.half - rounding
		for i := 1; p.Sort == draw.Wire && i < len(p.line); i++ {
			a, b := p.line[i-1], p.line[i]
			piece := draw.Box{Left: min(a.X, b.X), Top: min(a.Y, b.Y), Right: max(a.X, b.X), Bottom: max(a.Y, b.Y)}
			if a.Y == b.Y {
				piece.Top, piece.Bottom = piece.Top-half, piece.Bottom+half
			} else {
				piece.Left, piece.Right = piece.Left-half, piece.Right+half
			}
			out = append(out, stretch{w, a.Y == b.Y, piece})
		}
	}
	return out
}

// faults lists what must never be on a page.
func faults(p *draw.Picture) []string {
	list := parts(p)
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	pieces := stretches(list)
	for i, a := range pieces {
		for _, b := range pieces[:i] {
			if a.wire != b.wire && a.level == b.level && a.box.Overlaps(b.box) {
				say("%s and %s share a stretch", list[a.wire].Name, list[b.wire].Name)
			}
		}
	}
	for i, a := range list {
		if a.Sort == draw.Wire {
			continue
		}
		for _, b := range list[:i] {
			if b.Sort == a.Sort && a.Sort == draw.Device && less(a.box, 0.4).Overlaps(less(b.box, 0.4)) {
				say("%s stands on %s", a.Name, b.Name)
			}
		}
		for _, s := range pieces {
			if a.Sort == draw.Device && s.box.Overlaps(less(a.box, 1.3)) {
				say("%s runs through %s", list[s.wire].Name, a.Name)
			}
		}
	}
	return append(out, labels(p, list, pieces)...)
}

// word is one text of a page.
type word struct {
	part int
	text string
	box  draw.Box
}

// labels holds all words to the page, and apart from each other, from boxes and
// from wires. Words are measured without the rim of their letters' box.
func labels(p *draw.Picture, list []part, pieces []stretch) []string {
	const rim = 0.15
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	var words []word
	for i, a := range list {
		for _, t := range a.texts {
			words = append(words, word{i, t.Words, less(t.Box(), rim)})
		}
	}
	page := draw.Box{Right: p.WidthMM, Bottom: p.HeightMM}
	for _, i := range p.Items {
		if b, ok := draw.Bounds(i); ok && !b.Within(page) {
			say("something leaves the page: %+v", b)
		}
	}
	for i, a := range words {
		for _, b := range words[:i] {
			if a.box.Overlaps(b.box) {
				say("%q lies on %q", a.text, b.text)
			}
		}
		for k, b := range list {
			if b.Sort == draw.Device && k != a.part && a.box.Overlaps(less(b.box, 0.4)) {
				say("%q lies on %s", a.text, b.Name)
			}
		}
		for _, s := range pieces {
			if s.box.Overlaps(a.box) {
				say("%s runs through %q", list[s.wire].Name, a.text)
			}
		}
	}
	return out
}

// drawn holds the pages to the harness: each device once, each wire from its one
// terminal to its other, on one page, or in two halves to flags that name the other.
func drawn(h *harness.Harness, pages []*draw.Picture) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	devices, wires, ends := map[string]int{}, map[string]int{}, map[string]int{}
	for _, p := range pages {
		list := parts(p)
		for _, a := range list {
			switch a.Sort {
			case draw.Device:
				devices[a.Name]++
			case draw.Wire:
				wires[a.Name]++
				for _, at := range []draw.Point{a.line[0], a.line[len(a.line)-1]} {
					for _, name := range touched(list, at) {
						ends[a.Name+" "+name]++
					}
				}
			}
		}
	}
	for _, d := range h.Devices {
		if want := (len(d.Terminals)-2)/48 + 1; devices[d.Name] != 1 && (d.Kind.Name != "panel" || devices[d.Name] != want) {
			say("%s is drawn %d times", d.Name, devices[d.Name])
		}
	}
	for _, w := range h.Wires {
		if wires[w.Name] != 1 && wires[w.Name] != 2 {
			say("%s is drawn %d times", w.Name, wires[w.Name])
		}
		for _, e := range w.Ends {
			name := e.Name()
			if e.Terminal != nil && ends[w.Name+" "+e.Terminal.Device.Name] == 0 && ends[w.Name+" "+name] == 0 {
				say("%s does not reach %s", w.Name, name)
			}
			if e.Terminal == nil && ends[w.Name+" "+name] == 0 {
				say("%s has no mark at its end: %s", w.Name, name)
			}
		}
	}
	if len(wires) > len(h.Wires) || len(devices) > len(h.Devices) {
		say("%d wires of %d and %d devices of %d are drawn", len(wires), len(h.Wires), len(devices), len(h.Devices))
	}
	return out
}

// touched lists the devices and flags whose edge a point is at.
func touched(list []part, at draw.Point) []string {
	const near = 0.9
	var names []string
	for _, a := range list {
		if a.Sort == draw.Wire || at.Y < a.box.Top-near || at.Y > a.box.Bottom+near {
			continue
		}
		if math.Abs(at.X-a.box.Left) < near || math.Abs(at.X-a.box.Right) < near {
			name, _, _ := strings.Cut(a.Name, ", sheet ")
			names = append(names, name)
		}
	}
	return names
}
