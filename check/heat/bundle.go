package heat

import (
	"math"

	"hame/lang/tables"
)

// Bundle is wires that run together, loaded or not, under a cover or bare.
type Bundle struct {
	Wires []Wire
	Amps  []float64 // one for each wire; the sign doesn't matter

	// DiameterMM is the bundle's under its cover; 0: worked out from the wires.
	DiameterMM float64
	// BoreMM is the cover's inside; 0 or below the bundle: it lies close.
	BoreMM float64
	// CoverDiameterMM is the cover's outside; 0: bare.
	CoverDiameterMM float64
}

// layers is what lies between the copper and the air.
type layers struct {
	diameterMM float64 // of the bundle
	outsideMM  float64 // where the heat leaves
	cover      float64 // K for each W/m through gap and cover
	core       float64 // K for each W/m from the bundle's edge to its middle
}

// Solve gives every conductor's temperature in degC. A position in the bundle
// isn't known, so each wire is taken to lie in the middle: its own heat spreads
// from there to the edge, the others' is spread evenly. All are +Inf, with
// false, where no balance exists below the melting point of copper or a figure
// makes no sense.
func (b Bundle) Solve(ambientC float64) ([]float64, bool) {
	temps := make([]float64, len(b.Wires))
	return temps, b.SolveInto(temps, ambientC)
}

// SolveInto is Solve that writes the temperatures into a list, one for each wire.
func (b Bundle) SolveInto(temps []float64, ambientC float64) bool {
	if len(temps) == 0 || b.sound(ambientC) && b.solve(temps, ambientC) {
		return true
	}
	for i := range temps {
		temps[i] = math.Inf(1)
	}
	return false
}

// sound tells whether the bundle can be computed at all.
func (b Bundle) sound(ambientC float64) bool {
	if len(b.Amps) != len(b.Wires) || !(ambientC >= leastAmbientC && ambientC < MeltingC) {
		return false
	}
	for i, w := range b.Wires {
		if !w.sound() || !finite(b.Amps[i]) {
			return false
		}
	}
	return finite(b.DiameterMM) && finite(b.BoreMM) && finite(b.CoverDiameterMM)
}

// solve fills in the temperatures. With q a wire's heat, Q their sum, T the
// surface: a wire has T + Q (cover + core) + q (own - core), and q is linear in
// that; so Q is linear in T, and a single balance is left.
func (b Bundle) solve(temps []float64, ambientC float64) bool {
	l := b.layers()
	loss20 := 0.0
	for i, w := range b.Wires {
		spread, ok := l.spread(w, b.Amps[i])
		if !ok {
			return false
		}
		temps[i] = spread
		loss20 += spread
	}
	through := l.cover + l.core
	surfaceC, watts, ok := balance(l.outsideMM, loss20, through, ambientC)
	middleC := surfaceC + watts*through
	for i, w := range b.Wires {
		q := temps[i] * (1 + alpha*(middleC-20))
		temps[i] = middleC + q*(l.own(w)-l.core)
		ok = ok && temps[i] <= MeltingC
	}
	return ok
}

// spread is a wire's heat in W/m at 20 degC, raised by what its own place
// above (or below) the bundle's middle does to its resistance. False where
// that runs away.
func (l layers) spread(w Wire, amps float64) (float64, bool) {
	loss20 := amps * amps * w.R20OhmPerM
	gain := 1 - loss20*alpha*(l.own(w)-l.core)
	return loss20 / gain, gain > 0
}

// own is the rise in K for each W/m of a wire's own heat, through its
// insulation and on to the bundle's edge.
func (l layers) own(w Wire) float64 {
	return w.insulationRise() + annulus(w.OutsideDiameterMM, l.diameterMM, bundleK)
}

// layers works out what lies between the wires and the air. One wire alone has
// no core.
func (b Bundle) layers() layers {
	l := layers{diameterMM: b.diameter()}
	l.outsideMM = l.diameterMM
	l.core = 1 / (4 * math.Pi * bundleK)
	if b.CoverDiameterMM > l.diameterMM {
		bore := min(max(b.BoreMM, l.diameterMM), b.CoverDiameterMM)
		l.cover = annulus(l.diameterMM, bore, gapK) + annulus(bore, b.CoverDiameterMM, coverK)
		l.outsideMM = b.CoverDiameterMM
	}
	if len(b.Wires) == 1 {
		l.core = l.own(b.Wires[0])
	}
	return l
}

// diameter gives the bundle's diameter in mm: the one stated, but not less
// than its thickest wire.
func (b Bundle) diameter() float64 {
	if b.DiameterMM > 0 {
		thickest := 0.0
		for _, w := range b.Wires {
			thickest = max(thickest, w.OutsideDiameterMM)
		}
		return max(b.DiameterMM, thickest)
	}
	ods := make([]float64, len(b.Wires))
	for i, w := range b.Wires {
		ods[i] = w.OutsideDiameterMM
	}
	diameter, _ := tables.BundleDiameterMM(ods)
	return diameter
}
