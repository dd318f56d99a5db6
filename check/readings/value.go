package readings

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"hame/check/trial"
)

// unitWord is a unit as people write it.
type unitWord struct {
	dimension string
	si        float64
}

// unitWords by their words. In ohms, m and M are not the same; volts and amperes
// are read in either case, for nobody measures megavolts here.
var unitWords = map[string]unitWord{
	"v": {"V", 1}, "mv": {"V", 1e-3}, "a": {"A", 1}, "ma": {"A", 1e-3}, "ua": {"A", 1e-6}, "µa": {"A", 1e-6},
	"ohm": {"ohm", 1}, "ohms": {"ohm", 1}, "Ω": {"ohm", 1}, "mohm": {"ohm", 1e-3}, "mΩ": {"ohm", 1e-3},
	"kohm": {"ohm", 1e3}, "kΩ": {"ohm", 1e3}, "Mohm": {"ohm", 1e6}, "MΩ": {"ohm", 1e6},
	"k": {"K", 1}, "degc": {"K", 1}, "°c": {"K", 1}, "c": {"K", 1},
}

func unitOf(word string) (unitWord, bool) {
	word = strings.ReplaceAll(word, "Ω", "Ω") // the ohm sign is another letter than omega
	if u, ok := unitWords[word]; ok {
		return u, true
	}
	u, ok := unitWords[strings.ToLower(word)]
	if ok && u.dimension == "ohm" && strings.HasPrefix(word, "M") {
		return unitWord{}, false // MOHM: milli or mega
	}
	return u, ok
}

var (
	blanks  = []string{"", "-", "--", "?", "n/a", "na", "not measured"}
	opens   = []string{"ol", "o.l", "o.l.", "0l", "o/l", "open", "inf", "infinite", "∞", "over", "overload"}
	figure  = regexp.MustCompile(`^([<>]?)\s*([+-]?[0-9][0-9 .,]*(?:[eE][+-]?[0-9]+)?)\s*([^0-9\s.,]*)$`)
	grouped = regexp.MustCompile(`^[+-]?[0-9]{1,3}([., ][0-9]{3})+$`)
)

// isBlank: nothing was read.
func isBlank(text string) bool { return slices.Contains(blanks, strings.ToLower(text)) }

// greatest is what no reading goes beyond: a slip of the hand, not a figure.
const greatest = 1e12

// Parse reads what was written into a line's cell, in SI. A figure without a
// unit is in the form's. OL and its like are open, of a resistance alone.
func Parse(text, formUnit string, line trial.Unit, commas bool) (float64, error) {
	want, _ := unitOf(line.Name)
	if slices.Contains(opens, strings.ToLower(text)) {
		if want.dimension != "ohm" {
			return 0, fmt.Errorf("`%s` is no figure: take a greater range and write what it shows", short(text))
		}
		return math.Inf(1), nil
	}
	parts := figure.FindStringSubmatch(strings.NewReplacer("−", "-", "–", "-", ">", ">", "≥", ">", "≤", "<").Replace(text))
	if parts == nil {
		return 0, fmt.Errorf("`%s` is no figure", short(text))
	}
	unit, err := unitFor(parts[3], formUnit, line)
	if err != nil {
		return 0, err
	}
	if parts[1] != "" && want.dimension != "ohm" {
		return 0, fmt.Errorf("`%s` is no figure but a bound", short(text))
	}
	value, err := number(strings.TrimSpace(parts[2]), commas)
	if err != nil {
		return 0, err
	}
	if value *= unit.si; math.IsNaN(value) || math.Abs(value) > greatest {
		return 0, fmt.Errorf("`%s` is no figure that can be", short(text))
	}
	return value, nil
}

// unitFor is the unit of a figure: the one behind it, else the form's.
func unitFor(written, form string, line trial.Unit) (unitWord, error) {
	want, _ := unitOf(line.Name)
	word := written
	if word == "" {
		word = form
	}
	if word == "" {
		word = line.Name
	}
	got, ok := unitOf(word)
	switch {
	case !ok:
		return got, fmt.Errorf("`%s` is no unit that can be told: write %s", short(word), line.Name)
	case got.dimension != want.dimension:
		return got, fmt.Errorf("`%s` is not what is measured here: write %s", short(word), line.Name)
	}
	return got, nil
}

var errGrouped = errors.New("write the figure without marks between its thousands")

// number reads a decimal point, or a comma where the form may have them.
func number(text string, commas bool) (float64, error) {
	points, decimals := strings.Count(text, "."), strings.Count(text, ",")
	switch {
	case points+decimals > 1 || strings.Contains(text, " "):
		return 0, errGrouped
	case decimals == 1 && !commas && grouped.MatchString(text):
		return 0, errGrouped // 1,234 is a thousand to some and a little more than one to others
	}
	value, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
	if err != nil {
		return 0, fmt.Errorf("`%s` is no figure", short(text))
	}
	return value, nil
}

// short is a text for a message.
func short(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
