// Package wording puts figures and things into the words that calculation notes
// and sheets share.
package wording

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hame/check/figures"
	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/tables"
)

// Digits is how many a figure is printed to: as many as a pocket calculator's
// user types.
const Digits = 4

// Number writes a figure to its digits, without trailing zeros or an exponent;
// what is no number is unknown.
func Number(v float64) string { return To(Digits, v) }

// To is Number to so many digits.
func To(digits int, v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	if r == 0 {
		return "0" // never a minus zero
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}

// Named is a harness's name, as it follows the word: one whose header could not be
// read has none.
func Named(name string) string {
	if name == "" {
		return "without a name"
	}
	return name
}

// Position is a position in words.
func Position(p *figures.Position) string {
	parts := []string{"key " + p.Key, "engine " + p.Engine}
	if len(p.Closed) > 0 {
		parts = append(parts, strings.Join(p.Closed, ", ")+" closed")
	} else {
		parts = append(parts, "all switches open")
	}
	return strings.Join(append(parts, p.Corner), ", ")
}

// Cited is a source with its mark, where that is weaker than seen.
func Cited(s tables.Source) string {
	text := s.String()
	switch {
	case s.Mark == tables.Memory:
		return text + " (from memory)"
	case s.Mark == tables.Estimate:
		return strings.TrimSpace(text + " (estimate)")
	case s.Mark == tables.CommonPractice && !strings.HasPrefix(text, "common practice"):
		return strings.TrimSpace(text + " (common practice)")
	}
	return text
}

// Protection is a protective device's sort and size.
func Protection(d *network.Device) string {
	switch {
	case d.Sort == "link":
		return fmt.Sprintf("link of %s mm2", Number(d.LinkMM2))
	case d.RatingA == 0:
		return d.Sort + " of unknown rating"
	case d.Sort == "breaker":
		return fmt.Sprintf("breaker %s A, reset %s", Number(d.RatingA), d.Family)
	}
	return fmt.Sprintf("%s fuse %s A", d.Family, Number(d.RatingA))
}

// Wire is a wire's size and cut length.
func Wire(w *harness.Wire) string {
	size, length := "gauge unknown", "length unknown"
	if w.AreaMM2 > 0 {
		size = w.Size.String()
	}
	if w.HasLength {
		length = Number(w.LengthM) + " m"
	}
	return size + ", " + length
}
