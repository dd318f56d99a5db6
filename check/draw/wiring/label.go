package wiring

import (
	"hame/check/draw"
)

// labelMM is the type of the words on wires.
const labelMM = 2.0

// label is what stands on a wire: its number heavy, then gauge and colour, and
// what it carries.
type label struct{ name, rest, carries string }

func (r *run) label(s *scheme) label {
	if r.wire == nil {
		return label{rest: "bond"}
	}
	return label{cut(r.wire.Name, labelMM, true), joined(gaugeOf(r.wire), colourOf(r.wire)), s.mode.carries(r.wire)}
}

// parts are the words with their weights, in order.
func (l label) parts() (words []string, bold []bool) {
	for i, w := range []string{l.name, l.rest, l.carries} {
		if w != "" {
			words, bold = append(words, w), append(bold, i != 1)
		}
	}
	return words, bold
}

// spaceMM is between the parts.
const spaceMM = 0.9

func (l label) wide() float64 {
	words, bold := l.parts()
	sum := 0.0
	for i, w := range words {
		if i > 0 {
			sum += spaceMM
		}
		sum += draw.WidthMM(w, labelMM, bold[i])
	}
	return sum
}

// draw writes the label on a wire, from a point or up to it.
func (l label) draw(at draw.Point, ends bool) []draw.Item {
	const overMM = 1.1 // the line's half, and what hangs below the letters
	x, y := at.X, at.Y-overMM
	if ends {
		x -= l.wide()
	}
	var items []draw.Item
	words, bold := l.parts()
	for i, w := range words {
		items = append(items, draw.Text{At: draw.Point{X: x, Y: y}, Words: w, SizeMM: labelMM, Bold: bold[i]})
		x += draw.WidthMM(w, labelMM, bold[i]) + spaceMM
	}
	return items
}
