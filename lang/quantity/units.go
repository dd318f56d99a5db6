package quantity

import (
	"math/big"
	"strings"
)

// unit is one spelling that the language writes and how its numbers become the
// dimension's own: SI = number × num/den × 10^exp + offset.
type unit struct {
	name     string
	dim      Dimension
	exp      int   // a power of ten, so that decimal numbers stay exact
	num, den int64 // 0 means 1
}

// units in the order in which lists of them are shown. An inch is exactly
// 25.4 mm and a foot 0.3048 m (NIST SP 811, appendix B).
var units = []unit{
	{name: "V", dim: Voltage},
	{name: "mV", dim: Voltage, exp: -3},
	{name: "A", dim: Current},
	{name: "mA", dim: Current, exp: -3},
	{name: "kA", dim: Current, exp: 3},
	{name: "ohm", dim: Resistance},
	{name: "mohm", dim: Resistance, exp: -3},
	{name: "kohm", dim: Resistance, exp: 3},
	{name: "W", dim: Power},
	{name: "mW", dim: Power, exp: -3},
	{name: "kW", dim: Power, exp: 3},
	{name: "m", dim: Length},
	{name: "mm", dim: Length, exp: -3},
	{name: "cm", dim: Length, exp: -2},
	{name: "ft", dim: Length, num: 3048, den: 10000},
	{name: "in", dim: Length, num: 254, den: 10000},
	{name: "mm2", dim: Area},
	{name: "AWG", dim: Area},
	{name: "degC", dim: Temperature},
	{name: "degF", dim: Temperature, num: 5, den: 9},
	{name: "Ah", dim: Charge},
	{name: "s", dim: Time},
	{name: "ms", dim: Time, exp: -3},
	{name: "min", dim: Time, num: 60, den: 1},
	{name: "h", dim: Time, num: 3600, den: 1},
	{name: "d", dim: Time, num: 86400, den: 1},
	{name: "%", dim: Ratio, exp: -2},
}

// alsoRead are spellings that are read and that the formatter rewrites. Ohm
// comes as the Greek letter and as the sign.
var alsoRead = map[string]string{
	"Ω": "ohm", "mΩ": "mohm", "kΩ": "kohm",
	"\u2126": "ohm", "m\u2126": "mohm", "k\u2126": "kohm",
	"mm²": "mm2", "°C": "degC", "°F": "degF",
}

var byName = func() map[string]*unit {
	names := map[string]*unit{}
	for i := range units {
		names[units[i].name] = &units[i]
	}
	for spelling, name := range alsoRead {
		names[spelling] = names[name]
	}
	return names
}()

// Known reports whether a word is a unit, in any spelling that is read.
func Known(unit string) bool { return byName[unit] != nil }

// Canonical is a unit's ASCII spelling: "ohm" for "Ω".
func Canonical(unit string) (string, bool) {
	if u := byName[unit]; u != nil {
		return u.name, true
	}
	return unit, false
}

// DimensionOf is what a unit measures; None for a word that is no unit.
func DimensionOf(unit string) Dimension {
	if u := byName[unit]; u != nil {
		return u.dim
	}
	return None
}

// Units lists the units of a dimension, its own first.
func Units(dim Dimension) []string {
	var names []string
	for _, u := range units {
		if u.dim == dim {
			names = append(names, u.name)
		}
	}
	return names
}

// Meant is the unit that a word is but for the case of its letters, and what it
// measures: "AWG" for "awg". "" for any other word, and for a single letter, which
// is too little to tell.
func Meant(word string) (string, Dimension) {
	for i := range units {
		if u := &units[i]; len(u.name) > 1 && strings.EqualFold(u.name, word) {
			return u.name, u.dim
		}
	}
	return "", None
}

// ratio is the exact factor of the units that are no power of ten.
func (u *unit) ratio() *big.Rat { return big.NewRat(max(u.num, 1), max(u.den, 1)) }
