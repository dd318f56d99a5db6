package quantity

import (
	"math"
	"strconv"
	"strings"
)

// The gauge numbers that ASTM B258 lists: 4/0 is -3, 3/0 is -2, 2/0 is -1.
const (
	LargestGauge  = -3
	SmallestGauge = 56
)

// maxGauge is where reading stops; whether a gauge exists is for a rule to say.
const maxGauge = 999

// GaugeDiameterMM is the nominal diameter in mm of a solid conductor of a gauge
// number, by the definition in ASTM B258: 36 is 0.005 in, 4/0 is 0.46 in, and
// the 39 steps between them are a geometric series.
func GaugeDiameterMM(gauge int) float64 {
	return 25.4 * 0.005 * math.Pow(92, float64(36-gauge)/39)
}

// GaugeAreaMM2 is the nominal cross-section in mm2 of a gauge number.
func GaugeAreaMM2(gauge int) float64 {
	d := GaugeDiameterMM(gauge)
	return math.Pi / 4 * d * d
}

// GaugeText is a gauge number as it is written: "14", "2/0".
func GaugeText(gauge int) string {
	if gauge <= 0 {
		return strconv.Itoa(1-gauge) + "/0"
	}
	return strconv.Itoa(gauge)
}

// OfGauge is the quantity of a gauge number.
func OfGauge(gauge int) Quantity {
	return Quantity{Text: GaugeText(gauge), Unit: "AWG", Dim: Area, SI: GaugeAreaMM2(gauge), AWG: gauge}
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
	q.AWG, q.SI = n, GaugeAreaMM2(n)
	return q, nil
}
