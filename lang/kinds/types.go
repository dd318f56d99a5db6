package kinds

import (
	"strings"

	"hame/lang/quantity"
)

// valueType is a type of value that a slot can take.
type valueType struct {
	usage    string // in a usage line
	noun     string // in a sentence
	dim      quantity.Dimension
	ranged   bool // takes A..B too
	positive bool // zero is not allowed
	signed   bool // below zero is allowed
	bareMM   bool // a bare number is millimetres
	max      float64
	most     string              // says the greatest value, where there is a reason for it
	shape    func(*Matcher) bool // where the type is more than one value
}

// bounded is the type in a sentence, with its bound where zero is not allowed.
func (t *valueType) bounded() string {
	if !t.positive {
		return t.noun
	}
	return strings.Replace(t.noun, " such as", " above zero such as", 1)
}

// Reference types: a name that must be declared as such.
var references = map[string]string{
	"place": "a place", "zone": "a zone", "bundle": "a bundle", "device": "a device",
	"chassis": "a ground chassis", "switch": "a switch", "supply": "a supply", "mode": "a mode",
}

// IsReference reports whether a type is the name of another declaration.
func IsReference(name string) bool { _, ok := references[name]; return ok }

var types = makeTypes()

func makeTypes() map[string]*valueType {
	m := map[string]*valueType{
		"gauge":      {usage: "GAUGE", noun: "a gauge such as 2.5 mm2 or 14 AWG", dim: quantity.Area, positive: true, max: 1000},
		"gauges":     {usage: "GAUGE..GAUGE", noun: "a range of gauges such as 1 mm2..6 mm2", dim: quantity.Area, ranged: true, positive: true, max: 1000},
		"degC":       {usage: "TEMP", noun: "a temperature such as 40 degC", dim: quantity.Temperature, signed: true, max: 1000},
		"temps":      {usage: "TEMP..TEMP", noun: "a range of temperature such as -20..80 degC", dim: quantity.Temperature, ranged: true, signed: true, max: 1000},
		"mm":         {usage: "LENGTH", noun: "a length, bare in millimetres, such as 20 mm", dim: quantity.Length, positive: true, bareMM: true, max: 10},
		"count":      {usage: "NUMBER", noun: "a whole number", dim: quantity.None, positive: true, max: 1000},
		"text":       {usage: `"TEXT"`, noun: `a text in quotes`},
		"date":       {usage: "DATE", noun: "a date such as 2027-05-31"},
		"size":       {usage: "SIZE", noun: "a stud size such as M8, no10, 5/16 in or taper", shape: (*Matcher).size},
		"hardware":   {usage: "HARDWARE", noun: "a terminal such as ring M8, tab 6.3 female, pin or bare", shape: (*Matcher).hardware},
		"colour":     {usage: "COLOUR", noun: "a colour"},
		"cover":      {usage: "COVER", noun: "a cover (" + strings.Join(Covers(), ", ") + ")"},
		"insulation": {usage: "INSULATION", noun: "a cable designation (" + strings.Join(Insulations(), ", ") + ")"},
		"ip":         {usage: "IP67", noun: "a degree of protection such as IP67"},
		"word":       {usage: "NAME", noun: "a name"},
	}
	for name, t := range map[string]struct {
		dim quantity.Dimension
		max float64
	}{
		"V": {quantity.Voltage, 1000}, "A": {quantity.Current, 1e5}, "ohm": {quantity.Resistance, 1e9},
		"W": {quantity.Power, 1e6}, "m": {quantity.Length, 1e4}, "Ah": {quantity.Charge, 1e5},
		"s": {quantity.Time, 1e9}, "%": {quantity.Ratio, 10},
	} {
		noun := t.dim.String() + " such as " + quantity.Example(t.dim)
		usage := map[string]string{"m": "LENGTH", "s": "TIME"}[name]
		if usage == "" {
			usage = name
		}
		m[name] = &valueType{usage: usage, noun: noun, dim: t.dim, max: t.max}
		m[name+"+"] = &valueType{usage: usage, noun: noun, dim: t.dim, max: t.max, positive: true}
	}
	// The system: extra-low voltage as harnesses are built for, 60 V DC at most
	// (the usual bound of separated extra-low voltage, IEC 61140; from memory).
	m["system"] = &valueType{usage: "V", noun: "a voltage such as 12 V", dim: quantity.Voltage, positive: true, max: 60, most: "a harness of 12, 24 or 48 V, and at most 60 V"}
	m["share"] = &valueType{usage: "%", noun: "a percentage such as 80 %", dim: quantity.Ratio, max: 1, most: "at most 100 %"}
	m["share+"] = &valueType{usage: "%", noun: "a percentage such as 80 %", dim: quantity.Ratio, positive: true, max: 1, most: "at most 100 %"}
	for name, noun := range references {
		m[name] = &valueType{usage: upper(name), noun: "the name of " + noun}
	}
	return m
}
