package trial

import (
	"math"
	"strconv"
)

// Unit is how a figure is printed and what a handheld meter makes of it.
type Unit struct {
	Name   string
	SI     float64 // one of it in SI
	Places int
	share  float64 // the meter's tolerance: a share of the reading …
	digits float64 // … and a fixed part, in SI
}

// The units. Tolerances are those of a handheld meter of 3 1/2 digits, a clamp
// for direct current that was set to nothing first, and a contact thermometer:
// common practice, no source.
var (
	Volts      = Unit{"V", 1, 2, 0.005, 0.02}
	Millivolts = Unit{"mV", 1e-3, 1, 0.005, 0.0005}
	Amperes    = Unit{"A", 1, 2, 0.025, 0.1}
	Milliamps  = Unit{"mA", 1e-3, 1, 0.01, 0.0005}
	Ohms       = Unit{"ohm", 1, 2, 0.005, 0.2}
	Megohms    = Unit{"Mohm", 1e6, 0, 0.02, 0}
	Kelvins    = Unit{"K", 1, 0, 0, 3}
)

// Tolerance is what a reading of a figure may be off by the meter alone, in SI.
func (u Unit) Tolerance(value float64) float64 {
	if math.IsInf(value, 0) {
		return 0
	}
	return u.share*math.Abs(value) + u.digits
}

// Text is a figure as the unit prints it, without the unit: "open" for one that
// has no end.
func (u Unit) Text(value float64) string {
	switch {
	case math.IsInf(value, 1):
		return "open"
	case math.IsInf(value, 0) || math.IsNaN(value):
		return ""
	}
	text := strconv.FormatFloat(value/u.SI, 'f', u.Places, 64)
	if r, _ := strconv.ParseFloat(text, 64); r == 0 {
		return strconv.FormatFloat(0, 'f', u.Places, 64) // never a minus nought
	}
	return text
}

// nearest, below and above round to what is printed.
func (u Unit) nearest(v float64) float64 { return u.to(v, math.Round) }
func (u Unit) below(v float64) float64   { return u.to(v, math.Floor) }
func (u Unit) above(v float64) float64   { return u.to(v, math.Ceil) }

func (u Unit) to(v float64, round func(float64) float64) float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return v
	}
	const dust = 1e-6 // of the last digit: what binary figures cannot hold
	step := math.Pow10(u.Places)
	in := v / u.SI * step
	if near := math.Round(in); math.Abs(in-near) < dust {
		in = near
	}
	// Read back as it is printed, so that paper and program have one figure.
	printed, _ := strconv.ParseFloat(strconv.FormatFloat(round(in)/step, 'f', u.Places, 64), 64)
	return printed * u.SI
}
