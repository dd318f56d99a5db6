package circuit

import "math"

// Bounds of the model; see the package comment.
const (
	LeastOhm    = 1e-6 // resistances below it, and 0, count as this
	MostOhm     = 1e9  // resistances above it count as this
	LeakSiemens = 1e-9 // what a blocked diode or a source at its limit lets through
)

// Unlimited is a limit that is never reached.
var Unlimited = math.Inf(1)

// A law gives the amperes of one branch from the volts across it alone.
type law interface {
	// at answers for hi+lo volts from the first node to the second, lo being
	// the rounding remainder of hi: the amperes from the first node to the
	// second and their slope in siemens. leak stands in for LeakSiemens while
	// a hard network is approached in stages.
	at(hi, lo, leak float64) (amps, slope float64)
	// straight is a rough linear likeness for the first guess: the amperes at
	// 0 V and a slope above 0. volts is the greatest source voltage about.
	straight(volts float64) (amps, slope float64)
	// light is 0 for a law whose amperes never fall with rising volts. For any
	// other it is the conductance of a resistance that draws no more than the
	// law does below volts; that one stands in while the first guess is put
	// right, so that the search starts above the knee of every load.
	light(volts float64) float64
}

func siemens(ohm float64) float64 {
	if !(ohm > LeastOhm) { // also catches NaN
		return 1 / LeastOhm
	}
	return 1 / math.Min(ohm, MostOhm)
}

// finite puts 0 for what is not a number or not finite.
func finite(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return x
}

// atLeast holds x at or above floor; NaN gives floor.
func atLeast(x, floor float64) float64 {
	if x > floor {
		return x
	}
	return floor
}
