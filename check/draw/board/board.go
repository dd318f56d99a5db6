// Package board draws where a harness lies: its bundles from place to place, with
// lengths, covers and diameters. At a scale it is the board that the harness is
// built on; without one it is an overview on a page.
package board

import (
	"fmt"

	"hame/check/draw"
	"hame/lang/harness"
)

// Options say how the layout is drawn.
type Options struct {
	// Scale 1 is true size, 10 a tenth of it; 0 is an overview, not to scale.
	Scale int
	// Verdict stands under the title: what speaks against building, or "".
	Verdict string
}

// Pictures draws the layout: one picture for each part of the harness that no
// bundle joins to another. There is none where nothing has a place.
func Pictures(h *harness.Harness, o Options) []*draw.Picture {
	trees := grow(h)
	var list []*draw.Picture
	for i, root := range trees {
		p := &draw.Picture{Name: "layout", Title: "Layout of " + h.Name}
		if len(trees) > 1 {
			p.Name = fmt.Sprintf("layout-%d", i+1)
			p.Title = fmt.Sprintf("%s, part %d of %d", p.Title, i+1, len(trees))
		}
		s := sketch{harness: h, picture: p, options: o}
		if o.Scale > 0 {
			s.toScale(root)
		} else {
			s.overview(root)
		}
		list = append(list, p)
	}
	return list
}

// sketch is one picture while it is drawn.
type sketch struct {
	harness *harness.Harness
	picture *draw.Picture
	options Options
}

// Sizes on the page, in mm.
const (
	marginMM = 10
	typeMM   = 2.6 // of all words but titles
	lineMM   = 3.6 // from base line to base line
	titleMM  = 5.0
)

// finish puts the title above what was drawn, a scale or a note below, and fits
// the page around it.
func (s *sketch) finish(note string) {
	p := s.picture
	items := p.Items
	p.Items = nil
	box, _ := draw.Bounds(items...)
	lines := 1
	if s.options.Verdict != "" {
		lines = 2
	}
	top := marginMM + titleMM + float64(lines)*lineMM + 4
	for _, i := range items {
		p.Add(draw.Moved(i, marginMM-box.Left, top-box.Top))
	}
	bottom := top + box.Bottom - box.Top
	words := []draw.Item{draw.Text{At: draw.Point{X: marginMM, Y: marginMM + titleMM*0.8}, Words: p.Title, SizeMM: titleMM, Bold: true}}
	y := marginMM + titleMM + lineMM
	if s.options.Verdict != "" {
		words = append(words, draw.Text{At: draw.Point{X: marginMM, Y: y}, Words: s.options.Verdict, SizeMM: typeMM, Bold: true, Colour: draw.Alarm})
		y += lineMM
	}
	words = append(words, draw.Text{At: draw.Point{X: marginMM, Y: y}, Words: note, SizeMM: typeMM})
	p.Add(words...)
	all, _ := draw.Bounds(p.Items...)
	p.WidthMM = all.Right + marginMM
	p.HeightMM = max(bottom, all.Bottom) + marginMM
}
