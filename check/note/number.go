package note

import (
	"math"
	"strconv"
	"strings"

	"hame/check/wording"
)

// String writes a figure with its unit: "9.41 mohm", "80 %".
func (f Figure) String() string {
	switch {
	case f.Unit == "%":
		return wording.Number(100*f.Value) + " %"
	case f.Milli:
		return wording.Number(1000*f.Value) + " m" + f.Unit
	case f.Unit == "":
		return wording.Number(f.Value)
	}
	return wording.Number(f.Value) + " " + f.Unit
}

// held is a blank at which no line ends.
const held = "\u00a0"

// written is a calculation: "1.9 m x 4.95 mohm/m".
func written(how []Term) string {
	var b strings.Builder
	for _, t := range how {
		if t.Op != "" {
			b.WriteString(" " + t.Op + " ")
		}
		b.WriteString(strings.ReplaceAll(t.Figure.String(), " ", held))
	}
	return b.String()
}

// shown is a column's figure in the column's unit.
func (c Column) shown(v float64) float64 {
	switch {
	case c.Unit == "%":
		return 100 * v
	case c.Milli:
		return 1000 * v
	}
	return v
}

// written is a figure as a column has it.
func (c Column) written(v float64, places int) string {
	if c.Free {
		return wording.Number(c.shown(v))
	}
	return fixed(c.shown(v), places)
}

// unit is a column's unit as it's printed.
func (c Column) unit() string {
	if c.Milli {
		return "m" + c.Unit
	}
	return c.Unit
}

// places is how many digits after the point a column has: enough for its
// greatest figure's usual digits and three of its least, and no more than say
// something.
func (c Column) places(rows []Line, column int) int {
	var list []float64
	least, most := math.Inf(1), 0.0
	for _, r := range rows {
		v := r.Cells[column].Value
		if v == nil || math.IsInf(*v, 0) || math.IsNaN(*v) {
			continue
		}
		list = append(list, c.shown(*v))
		if size := math.Abs(c.shown(*v)); size > leastShown {
			least, most = min(least, size), max(most, size)
		}
	}
	if most == 0 {
		return 0
	}
	n := max(wording.Digits-1-int(math.Floor(math.Log10(most))), 2-int(math.Floor(math.Log10(least))))
	n = max(0, min(mostPlaces, n))
	for n > 0 && sameAt(list, n) {
		n--
	}
	return n
}

const (
	mostPlaces = 3
	leastShown = 0.5e-3 // what mostPlaces still show
)

// sameAt reports whether a column says the same with one place less.
func sameAt(list []float64, places int) bool {
	for _, v := range list {
		more, less := strconv.FormatFloat(v, 'f', places, 64), strconv.FormatFloat(v, 'f', places-1, 64)
		if strings.TrimSuffix(strings.TrimSuffix(more, "0"), ".") != less {
			return false
		}
	}
	return true
}

// fixed writes a figure with so many places.
func fixed(v float64, places int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	text := strconv.FormatFloat(v, 'f', places, 64)
	if r, _ := strconv.ParseFloat(text, 64); r == 0 {
		return "0"
	}
	return text
}
