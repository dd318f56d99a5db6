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

// half is a wire as it is drawn on one page: what its ends touch, and the flag by
// which it goes on.
type half struct {
	page    int
	touches map[string]bool
	flag    string // to sheet 2, row B
	flagY   float64
}

func halves(pages []*draw.Picture) map[string][]half {
	list := map[string][]half{}
	for n, p := range pages {
		all := parts(p)
		for _, a := range all {
			if a.Sort != draw.Wire {
				continue
			}
			h := half{page: n + 1, touches: map[string]bool{}}
			for _, at := range []draw.Point{a.line[0], a.line[len(a.line)-1]} {
				for _, o := range touched(all, at, 2*a.half) {
					if last := o.texts[len(o.texts)-1].Words; strings.Contains(last, " sheet ") && len(o.texts) == 2 && o.Sort == draw.Note {
						h.flag, h.flagY = last, at.Y
						continue
					}
					name, _, _ := strings.Cut(o.Name, ", sheet ")
					h.touches[name] = true
				}
			}
			list[a.Name] = append(list[a.Name], h)
		}
	}
	return list
}

// drawn holds the pages to the harness: each device once, each wire from its one
// terminal to its other, on one page, or in two halves to flags that name the other.
func drawn(h *harness.Harness, pages []*draw.Picture) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	devices := map[string]int{}
	for _, p := range pages {
		for _, a := range parts(p) {
			if a.Sort == draw.Device {
				devices[a.Name]++
			}
		}
	}
	for _, d := range h.Devices {
		want := 1
		if d.Kind.Name == "panel" {
			want = max(1, (len(d.Terminals)-1+47)/48)
		}
		if devices[d.Name] != want {
			say("%s is drawn %d times", d.Name, devices[d.Name])
		}
	}
	all := halves(pages)
	for _, w := range h.Wires {
		list := all[w.Name]
		touches := map[string]bool{}
		for _, half := range list {
			for name := range half.touches {
				touches[name] = true
			}
		}
		for _, e := range w.Ends {
			if !touches[e.Name()] && (e.Terminal == nil || !touches[e.Terminal.Device.Name]) {
				say("%s does not reach %s", w.Name, e.Name())
			}
		}
		switch {
		case len(list) == 1 && list[0].flag == "":
		case len(list) == 2 && refers(list[0], list[1], pages) && refers(list[1], list[0], pages):
		default:
			say("%s is drawn %d times: %+v", w.Name, len(list), list)
		}
	}
	if len(all) != len(h.Wires) || len(devices) != len(h.Devices) {
		say("%d wires of %d and %d devices of %d are drawn", len(all), len(h.Wires), len(devices), len(h.Devices))
	}
	return out
}

// refers reports whether the flag of a half names the sheet and the row of the
// other's.
func refers(a, b half, pages []*draw.Picture) bool {
	var way, row string
	var n int
	if _, err := fmt.Sscanf(strings.ReplaceAll(a.flag, ",", " "), "%s sheet %d row %s", &way, &n, &row); err != nil || n != b.page {
		return false
	}
	for _, i := range pages[b.page-1].Items {
		const halfRow, rounding = 30, 1
		if t, ok := i.(draw.Text); ok && t.Words == row && t.Anchor == draw.Middle && math.Abs(t.At.Y-b.flagY) < halfRow+rounding {
			return true
		}
	}
	return false
}

// touched lists the devices and flags whose edge a point is near.
func touched(list []part, at draw.Point, near float64) []part {
	var out []part
	for _, a := range list {
		if a.Sort == draw.Wire || len(a.texts) == 0 || at.Y < a.box.Top-near || at.Y > a.box.Bottom+near {
			continue
		}
		if math.Abs(at.X-a.box.Left) < near || math.Abs(at.X-a.box.Right) < near {
			out = append(out, a)
		}
	}
	return out
}
