package quantity

import (
	"errors"
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// MaxDigits is how long a number may be. Nothing that is built has more.
const MaxDigits = 30

var (
	errDigits   = fmt.Errorf("a number has at most %d digits", MaxDigits)
	errNumber   = errors.New("a number has a digit on both sides of its point, such as 0.5")
	errFraction = errors.New("a fraction is a gauge such as 2/0 AWG or a length such as 1/4 in")
	errGauge    = errors.New("a gauge is a whole number such as 14 AWG, or 1/0 to 4/0 AWG")
)

// Parse reads a number as it is written ("2.5", "2/0", "1/4", "-20") and its
// unit in any spelling that is read; "" for a bare number. The value is the
// number nearest to the exact one.
func Parse(number, unit string) (Quantity, error) {
	if len(number) > MaxDigits && (len(number) > MaxDigits+2 || countDigits(number) > MaxDigits) {
		return Quantity{}, errDigits
	}
	if unit == "" {
		return decimal(Quantity{Text: number}, 0)
	}
	u := byName[unit]
	if u == nil {
		return Quantity{}, fmt.Errorf("%s is not a unit", unit)
	}
	q := Quantity{Text: number, Unit: u.name, Dim: u.dim}
	switch {
	case u.name == "AWG":
		return parseGauge(q)
	case strings.Contains(number, "/") && (u.name == "in" || u.name == "ft"):
		return fraction(q, u)
	case u.num != 0:
		return scaled(q, u, number)
	}
	return decimal(q, u.exp)
}

func countDigits(number string) int {
	return len(number) - strings.Count(number, ".") - strings.Count(number, "/") - strings.Count(number, "-")
}

// decimal reads number × 10^exp as one decimal text, which rounds only once.
func decimal(q Quantity, exp int) (Quantity, error) {
	if err := checkDecimal(q.Text); err != nil {
		return Quantity{}, err
	}
	text := q.Text
	if exp != 0 {
		text += "e" + strconv.Itoa(exp)
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return Quantity{}, errNumber
	}
	q.SI = value + 0 // never minus zero
	return q, nil
}

// checkDecimal accepts an optional sign, digits, and a point between digits.
// strconv alone would also take "Inf", "1e9" and "0x1p-2".
func checkDecimal(number string) error {
	if strings.Contains(number, "/") {
		return errFraction
	}
	if number != "" && (number[0] == '+' || number[0] == '-') {
		number = number[1:]
	}
	whole, part, pointed := strings.Cut(number, ".")
	if !allDigits(whole) || pointed && !allDigits(part) {
		return errNumber
	}
	return nil
}

func allDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return text != ""
}

// scaled reads a number of a unit that is no power of ten times the SI unit.
func scaled(q Quantity, u *unit, number string) (Quantity, error) {
	if err := checkDecimal(number); err != nil {
		return Quantity{}, err
	}
	value, ok := new(big.Rat).SetString(number)
	if !ok {
		return Quantity{}, errNumber
	}
	return exact(q, u, value)
}

// fraction reads 1/4 and 3/8.
func fraction(q Quantity, u *unit) (Quantity, error) {
	above, below, _ := strings.Cut(q.Text, "/")
	if !allDigits(above) || !allDigits(below) || strings.Trim(below, "0") == "" {
		return Quantity{}, errFraction
	}
	value, ok := new(big.Rat).SetString(above + "/" + below)
	if !ok {
		return Quantity{}, errFraction
	}
	return exact(q, u, value)
}

func exact(q Quantity, u *unit, value *big.Rat) (Quantity, error) {
	if u.name == "degF" {
		value.Sub(value, big.NewRat(32, 1))
	}
	q.SI, _ = value.Mul(value, u.ratio()).Float64()
	return q, nil
}
