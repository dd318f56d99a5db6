package tables

import (
	"math"
	"strconv"
	"strings"
)

// The gauges that the language knows: 4/0 to 40.
const (
	thickestAWG = -3
	thinnestAWG = 40
)

// circularMilMM2 is the area of one circular mil, a circle of 0.001 in.
const circularMilMM2 = math.Pi / 4 * 0.0254 * 0.0254

// awgSource is the document that defines the gauges by formula.
var awgSource = Source{Document: "ASTM B258", Clause: "diameter by gauge number", Mark: Seen}

// KnownAWG tells whether n is a gauge from 4/0 to 40, counting 1/0 as 0,
// 2/0 as -1, 3/0 as -2 and 4/0 as -3.
func KnownAWG(n int) bool { return n >= thickestAWG && n <= thinnestAWG }

// AWGDiameterMM gives the diameter in mm of a solid wire of gauge n
// (0 = 1/0 … -3 = 4/0): 0.005 in at 36 and 92^(1/39) a step (ASTM B258).
func AWGDiameterMM(n int) float64 {
	return 0.127 * math.Pow(92, float64(36-n)/39)
}

// AWGAreaMM2 gives the area in mm2 of a solid wire of gauge n (ASTM B258).
func AWGAreaMM2(n int) float64 {
	d := AWGDiameterMM(n)
	return math.Pi / 4 * d * d
}

// AWGName writes a gauge number as the trade does: "14", "2/0".
func AWGName(n int) string {
	if n <= 0 {
		return strconv.Itoa(1-n) + "/0"
	}
	return strconv.Itoa(n)
}

// ParseAWG reads "14" or "2/0"; false where there is no such gauge.
func ParseAWG(name string) (int, bool) {
	digits, noughts := strings.CutSuffix(name, "/0")
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 {
		return 0, false
	}
	if noughts {
		return 1 - n, n <= 4
	}
	return n, n <= thinnestAWG
}
