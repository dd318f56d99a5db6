package quantity_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hame/lang/quantity"
)

// Factors that this program did not make: NIST SP 811 appendix B (inch, foot,
// degree Fahrenheit), SI prefixes, 60 s, 3600 s and 86400 s of the SI brochure
// table 8. All from memory.
func TestParseConvertsToSI(t *testing.T) {
	for _, c := range []struct {
		number, unit string
		si           float64
		written      string
	}{
		{"12", "V", 12, "12 V"},
		{"250", "mV", 0.25, "250 mV"},
		{"8", "mA", 0.008, "8 mA"},
		{"1.5", "kA", 1500, "1.5 kA"},
		{"96", "Ω", 96, "96 ohm"},
		{"96", "\u2126", 96, "96 ohm"},
		{"3", "mΩ", 0.003, "3 mohm"},
		{"4.7", "kohm", 4700, "4.7 kohm"},
		{"27", "W", 27, "27 W"},
		{"0.9", "m", 0.9, "0.9 m"},
		{"300", "mm", 0.3, "300 mm"},
		{"1", "in", 0.0254, "1 in"},
		{"1/4", "in", 0.00635, "1/4 in"},
		{"1/2", "in", 0.0127, "1/2 in"},
		{"1", "ft", 0.3048, "1 ft"},
		{"10", "ft", 3.048, "10 ft"},
		{"2.5", "mm²", 2.5, "2.5 mm2"},
		{"-20", "°C", -20, "-20 degC"},
		{"212", "degF", 100, "212 degF"},
		{"32", "°F", 0, "32 degF"},
		{"-40", "degF", -40, "-40 degF"},
		{"70", "Ah", 70, "70 Ah"},
		{"300", "ms", 0.3, "300 ms"},
		{"2", "h", 7200, "2 h"},
		{"1", "d", 86400, "1 d"},
		{"80", "%", 0.8, "80 %"},
		{"6.3", "", 6.3, "6.3"},
		{"-0", "", 0, "-0"},
	} {
		q, err := quantity.Parse(c.number, c.unit)
		if err != nil || q.SI != c.si || q.String() != c.written {
			t.Errorf("%s %s: %v as %q, %v; want %v as %q", c.number, c.unit, q.SI, q, err, c.si, c.written)
		}
		if math.Signbit(q.SI) && q.SI == 0 {
			t.Errorf("%s %s: minus zero", c.number, c.unit)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ number, unit, says string }{
		{"1e9", "V", "digit on both sides"},
		{"Inf", "A", "digit on both sides"},
		{"NaN", "", "digit on both sides"},
		{"0x10", "A", "digit on both sides"},
		{"5.", "A", "digit on both sides"},
		{".5", "ft", "digit on both sides"},
		{"1_000", "A", "digit on both sides"},
		{"", "A", "digit on both sides"},
		{"--1", "A", "digit on both sides"},
		{strings.Repeat("9", 31), "A", "at most 30 digits"},
		{strings.Repeat("9", 1<<20), "in", "at most 30 digits"},
		{"1/4", "V", "fraction"},
		{"1/4", "", "fraction"},
		{"1/0", "in", "fraction"},
		{"1/2/3", "in", "fraction"},
		{"2.5", "AWG", "whole number"},
		{"-2", "AWG", "whole number"},
		{"1/4", "AWG", "whole number"},
		{"1000", "AWG", "whole number"},
		{"3", "furlong", "not a unit"},
		{"3", "a", "not a unit"},
	} {
		q, err := quantity.Parse(c.number, c.unit)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%.20s %s: %v, %v; want an error with %q", c.number, c.unit, q, err, c.says)
		}
	}
}

// Whatever is read is finite, reads back from its own spelling, and is as near
// to the factor's product as one rounding allows.
func TestParseIsFiniteAndStable(t *testing.T) {
	names := []string{"", "V", "mA", "kohm", "in", "ft", "mm", "degC", "degF", "AWG", "d", "%", "Ω", "x"}
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.StringMatching(`[-+]?[0-9]{1,32}([./][0-9]{1,4})?`).Draw(t, "number")
		unit := rapid.SampledFrom(names).Draw(t, "unit")
		q, err := quantity.Parse(number, unit)
		if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) {
			t.Fatalf("%s %s is %v", number, unit, q.SI)
		}
		if err != nil {
			return
		}
		again, err := quantity.Parse(q.Text, q.Unit)
		if err != nil || again != q {
			t.Fatalf("%q reads as %v, then as %v (%v)", number+" "+unit, q, again, err)
		}
	})
}

func TestUnitsOfEveryDimension(t *testing.T) {
	for dim := quantity.Voltage; dim <= quantity.Ratio; dim++ {
		names := quantity.Units(dim)
		if len(names) == 0 || names[0] != dim.Unit() {
			t.Errorf("%s: units %v do not start with %q", dim, names, dim.Unit())
		}
		number, unit, _ := strings.Cut(quantity.Example(dim), " ")
		if q, err := quantity.Parse(number, unit); err != nil || q.Dim != dim {
			t.Errorf("%s: the example %q is %v, %v", dim, quantity.Example(dim), q.Dim, err)
		}
		for _, name := range names {
			if !quantity.Known(name) || quantity.DimensionOf(name) != dim {
				t.Errorf("%s: %s is not known as such", dim, name)
			}
		}
	}
	if got, ok := quantity.Canonical("mΩ"); got != "mohm" || !ok {
		t.Errorf("mΩ is written %q", got)
	}
	if quantity.Known("M8") || quantity.DimensionOf("red") != quantity.None {
		t.Error("M8 and red are units")
	}
}

// A unit in letters of another case is known for what it was meant as: of those
// that are alike, the first of the first dimension.
func TestMeant(t *testing.T) {
	first := map[string]string{}
	for dim := quantity.Voltage; dim <= quantity.Ratio; dim++ {
		for _, unit := range quantity.Units(dim) {
			word := strings.ToUpper(unit)
			if first[word] == "" && len(unit) > 1 {
				first[word] = unit
			}
			if got, of := quantity.Meant(word); got != first[word] || got != "" && of != quantity.DimensionOf(got) {
				t.Errorf("%s is taken for %q of %v, not for %q", word, got, of, first[word])
			}
		}
	}
	for _, word := range []string{"", "a", "amps", "mm²", "mm 2"} {
		if got, _ := quantity.Meant(word); got != "" {
			t.Errorf("%q is taken for %s", word, got)
		}
	}
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		for _, c := range [][2]string{{"2.5", "mm2"}, {"0.3", "s"}, {"10", "ft"}, {"14", "AWG"}} {
			if _, err := quantity.Parse(c[0], c[1]); err != nil {
				b.Fatal(err)
			}
		}
	}
}
