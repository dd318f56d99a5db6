package sheets

import (
	"math"
	"strconv"
	"strings"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
)

// unknown stands for a fact that is not declared.
const unknown = "?"

// benchDigits is how many digits a figure has that is read off a meter.
const benchDigits = 3

// rawDigits are as many as are the same on every machine that computes them.
const rawDigits = 6

// figure is a figure as a bench reads it; Raw has it as it was computed.
func figure(v float64) sheet.Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return sheet.Is(unknown)
	}
	return sheet.Cell{Words: wording.To(max(benchDigits, wholeDigits(v)), v), Raw: strconv.FormatFloat(v, 'g', rawDigits, 64)}
}

// wholeDigits is how many digits stand before the point.
func wholeDigits(v float64) int {
	return len(strconv.FormatFloat(math.Trunc(math.Abs(v)), 'f', 0, 64))
}

// figureOr is a figure, or unknown where there is none.
func figureOr(v *float64) sheet.Cell {
	if v == nil {
		return sheet.Is(unknown)
	}
	return figure(*v)
}

// atMost is a figure that is a bound.
func atMost(v float64) sheet.Cell {
	c := figure(v)
	c.Words = "at most " + c.Words
	return c
}

// maybe is a figure, or a blank where it is not there to be had.
func maybe(v float64, ok bool) sheet.Cell {
	if !ok {
		return sheet.Cell{}
	}
	return figure(v)
}

// placeOf is the name of the place where a device sits.
func placeOf(d *harness.Device) string {
	if d.At == nil {
		return unknown
	}
	return d.At.Name
}

// own marks what is the machine's own.
func own(existing bool) string {
	if existing {
		return "machine's own"
	}
	return ""
}

// list joins names, or says that there are none.
func list(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, ", ")
}
