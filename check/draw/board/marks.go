package board

import (
	"math"

	"hame/check/draw"
)

// Of a bundle on the board, in mm.
const (
	solidMM = 3.0 // up to it a bundle is drawn solid, above it as two walls
	wallMM  = 0.4
)

// strand draws a bundle as broad as it is. A broad one is left open, to save ink
// and to show what is laid on it, with a line along its middle. The first line is
// the whole of it.
func strand(points []draw.Point, broad float64, dashed bool) []draw.Item {
	ink := draw.Ink{WidthMM: broad, Colour: draw.Black}
	if dashed {
		ink.DashMM = 2
	}
	items := []draw.Item{draw.Line{Points: points, Ink: ink}}
	if broad > solidMM && !dashed {
		items = append(items,
			draw.Line{Points: points, Ink: draw.Ink{WidthMM: broad - 2*wallMM, Colour: draw.Paper}},
			draw.Line{Points: points, Ink: draw.Ink{WidthMM: wallMM / 2, Colour: draw.Black}})
	}
	return items
}

// Marks along a bundle, in mm on the page.
const (
	markMM     = 1.5
	markGapMM  = 40.0 // at least, from mark to mark
	markTypeMM = 2.0
	mostMarks  = 2000 // a bundle that would have more has none
)

// marks tell how far it is from the peg that a bundle comes from, along its
// straight part: at round lengths, and in figures where there is room.
func (s *sketch) marks(from, to *peg, taken, half float64) (items []draw.Item) {
	scale := float64(s.options.Scale)
	slant := math.Hypot(to.bent.X-from.at.X, to.bent.Y-from.at.Y)
	straight := to.at.X - to.bent.X
	step := markStep(scale)
	if straight*scale/step > mostMarks {
		return nil
	}
	colour := draw.Paper // on a solid one
	if 2*half > solidMM {
		colour = draw.Black
	}
	for k := max(1, math.Ceil((slant+markMM)*scale/step)); ; k++ {
		along := k*step/scale - slant
		if along > straight-pegMM-markMM {
			return items
		}
		top := to.bent.Add(along, -half)
		items = append(items, draw.Line{Points: []draw.Point{top, top.Add(0, 2*half)}, Ink: draw.Ink{WidthMM: 0.2, Colour: colour}})
		t := draw.Text{At: top.Add(0, -0.8), Words: metres(k * step / 1000), SizeMM: markTypeMM, Anchor: draw.Middle}
		if box := t.Box(); box.Left > taken+1 && box.Right < to.at.X-pegMM {
			items = append(items, t)
		}
	}
}

// markStep is a round length, in mm, that is drawn no shorter than the gap.
func markStep(scale float64) float64 {
	for step := 100.0; ; step *= 10 {
		for _, m := range []float64{1, 2, 5} {
			if step*m/scale >= markGapMM {
				return step * m
			}
		}
	}
}
