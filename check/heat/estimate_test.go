package heat

import (
	"math"
	"testing"

	"hame/lang/tables"
)

// AC 43.13-1B CHG 1 11-67 example 2 step 2 estimates a conductor's temperature by
// T1 + (TR - T1) sqrt(I/Imax): 8 wires of 14 AWG of 200 degC in 50 degC, 20 A of the
// 26 A that step 1 allows, 181.6 degC (inputs read, formula and result from memory).
// The text calls that quite conservative: heat goes with the square of the current.
// On the ground step 1 allows 47 A x 0.6 = 28.2 A, and by the square 20 A make 125 degC
// (computed), a little less where the copper is cooler than at full current.
func TestEstimateIsTheCautiousOne(t *testing.T) {
	const ambientC, ratedC, amps = 50.0, 200.0, 20.0
	cable, _ := tables.Cable("m22759-16")
	w := WireOf(cable, tables.Gauge(14))
	r, _ := tables.AC43ResistancePerM(14)
	w.R20OhmPerM = r.OhmPerM
	temps, ok := alike(w, 8, 5, amps).Solve(ambientC) // 5 of 8: 60 % of its capacity
	if !ok {
		t.Fatal("no balance")
	}
	share := amps / (47 * 0.6)
	near(t, "by the square", temps[0], ambientC+(ratedC-ambientC)*share*share, 5)
	estimate := ambientC + (ratedC-ambientC)*math.Sqrt(amps/26)
	near(t, "the handbook's estimate", estimate, 181.6, 0.05)
	if temps[0] >= estimate {
		t.Errorf("%g degC, and the cautious estimate is %g", temps[0], estimate)
	}
}
