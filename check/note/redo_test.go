package note_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// What follows is the reviewer with a pocket calculator: it knows the printed
// text alone, types the figures as they stand, and allows for their rounding.

// measured is a figure as it's printed, in the unit without its prefix, and how
// far its rounding may be off.
type measured struct{ v, off float64 }

// units are those that notes print.
var units = strings.Fields("% mohm/m ohm/m mohm ohm mV V A W/m W m s h Ah mm2 degC")

var root = regexp.MustCompile(`([\d.]+) = sqrt\(\(([\d.]+) - (-?[\d.]+)\) / \(([\d.]+) - ([\d.]+)\)\)`)

// typed is a printed figure: four digits, so half of the fourth may be lost.
func typed(digits, unit string) measured {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return measured{math.NaN(), 0}
	}
	off := 0.0
	if v != 0 {
		off = 0.5 * math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-3)
	}
	switch {
	case unit == "%":
		return measured{v / 100, off / 100}
	case strings.HasPrefix(unit, "mohm"), unit == "mV":
		return measured{v / 1000, off / 1000}
	}
	return measured{v, off}
}

// by works one operation, and how far off it may be.
func (a measured) by(op string, b measured) measured {
	switch op {
	case "x":
		return measured{a.v * b.v, math.Abs(a.v)*b.off + math.Abs(b.v)*a.off + a.off*b.off}
	case "/":
		return measured{a.v / b.v, (a.off + math.Abs(a.v/b.v)*b.off) / (math.Abs(b.v) - b.off)}
	case "+":
		return measured{a.v + b.v, a.off + b.off}
	case "-":
		return measured{a.v - b.v, a.off + b.off}
	}
	return b
}

// agrees reports whether two figures are the same within their rounding.
func (a measured) agrees(b measured) bool {
	return math.Abs(a.v-b.v) <= (a.off+b.off)*(1+1e-9)+1e-12
}

// oneLine undoes the wrapping of a note.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// redo works every calculation of a text again, and says how many there were
// and which are wrong.
func redo(text string) (count int, wrong []string) {
	words := strings.Fields(text)
	for i, word := range words {
		if word != "=" || i < 2 || strings.HasPrefix(words[i+1], "sqrt") {
			continue
		}
		count++
		at := i - 1
		if slices.Contains(units, words[at]) {
			at--
		}
		want, _ := operand(words[at:])
		if got, n := worked(words[i+1:]); !got.agrees(want) {
			wrong = append(wrong, fmt.Sprintf("%s: %g", strings.Join(words[at:i+1+n], " "), got.v))
		}
	}
	for _, m := range root.FindAllStringSubmatch(oneLine(text), -1) {
		count++
		above := typed(m[2], "").by("-", typed(m[3], ""))
		below := typed(m[4], "").by("-", typed(m[5], ""))
		if got := math.Sqrt(above.v / below.v); math.Abs(got-typed(m[1], "").v) > 1e-4 {
			wrong = append(wrong, fmt.Sprintf("%s: %g", m[0], got))
		}
	}
	return count, wrong
}

// operand reads a figure and its unit, and says how many words they are.
func operand(words []string) (measured, int) {
	if len(words) > 1 && slices.Contains(units, words[1]) {
		return typed(words[0], words[1]), 2
	}
	return typed(words[0], ""), 1
}

// worked works a calculation from the left, and says how many words it has.
func worked(words []string) (measured, int) {
	got, n := operand(words)
	for n+1 < len(words) && strings.Contains("x/+-", words[n]) {
		next, k := operand(words[n+1:])
		got = got.by(words[n], next)
		n += 1 + k
	}
	return got, n
}

// TestRedoFindsMistakes: the pocket calculator itself must tell a wrong product
// from a right one, or the tests that use it can't fail.
func TestRedoFindsMistakes(t *testing.T) {
	for text, wrong := range map[string]int{
		"8.91 mohm  = 1.8 m x 4.95 mohm/m  [1]":                   0,
		"8.95 mohm  = 1.8 m x 4.95 mohm/m  [1]":                   1,
		"11.21 mohm  = 1.8 m x 4.95 mohm/m + 0.3 mohm +\n 2 mohm": 0,
		"11.51 mohm  = 1.8 m x 4.95 mohm/m + 0.3 mohm +\n 2 mohm": 1,
		"20.49 %  = 9.103 A / 44.43 A":                            0,
		"21.49 %  = 9.103 A / 44.43 A":                            1,
		"116.3 h  = 70 Ah x 80 % / 0.4816 A  the mode":            0,
		"0.8885  = sqrt((125 - 50) / (125 - 30))  [7]":            0,
		"0.8985  = sqrt((125 - 50) / (125 - 30))  [7]":            1,
		"13.51 V  = 14.11 V - 0.6064 V":                           0,
		"13.55 V  = 14.11 V - 0.6064 V":                           1,
	} {
		if count, got := redo(text); count != 1 || len(got) != wrong {
			t.Errorf("%q: %d calculations, wrong %q, want %d", text, count, got, wrong)
		}
	}
}
