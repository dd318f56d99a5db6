package quantity

import (
	"strconv"
	"strings"

	"hame/lang/tables"
)

// The gauge numbers that ASTM B258 lists: 4/0 is -3, 3/0 is -2, 2/0 is -1.
const (
	LargestGauge  = -3
	SmallestGauge = 56
)

// maxGauge is where reading stops; whether a gauge exists is for a rule to say.
const maxGauge = 999

// OfGauge is the quantity of a gauge number.
func OfGauge(gauge int) Quantity {
	return Quantity{Text: tables.AWGName(gauge), Unit: "AWG", Dim: Area, SI: tables.AWGAreaMM2(gauge), AWG: gauge}
}

// IsGauge reports whether the quantity was written in AWG.
func (q Quantity) IsGauge() bool { return q.Unit == "AWG" }

// parseGauge reads 14, 0 and 2/0. A gauge that no standard lists is still
// read, so that the message about it can speak of its size.
func parseGauge(q Quantity) (Quantity, error) {
	number, zero, slashed := strings.Cut(q.Text, "/")
	n, err := strconv.Atoi(number)
	if err != nil || !allDigits(number) || n > maxGauge || slashed && (zero != "0" || n < 1) {
		return Quantity{}, errGauge
	}
	if slashed {
		n = 1 - n
	}
	q.AWG, q.SI = n, tables.AWGAreaMM2(n)
	return q, nil
}
