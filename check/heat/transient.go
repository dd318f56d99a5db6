package heat

import (
	"math"

	"hame/lang/tables"
)

// panels is the number of steps in which a warming is added up.
const panels = 64

// TransientSeconds gives how long in s a wire alone in still air takes from
// startC to limitC, all in degC, at a steady current. Its copper stores the
// heat (what the insulation stores is left out, which errs on the short side)
// and sheds it all the while. 0 where it's there already; +Inf where it never
// gets there. Meant for times above 5 s; below, little heat is lost. NaN where
// the wire or a figure makes no sense.
func TransientSeconds(w Wire, amps, startC, limitC, ambientC float64) float64 {
	switch {
	case !Warms(w, amps, startC, limitC, ambientC):
		return math.NaN()
	case startC >= limitC:
		return 0
	}
	return w.warming(amps, ambientC, w.surfaceAt(startC, ambientC), w.surfaceAt(limitC, ambientC))
}

// Warms tells whether TransientSeconds makes sense of a wire and figures.
func Warms(w Wire, amps, startC, limitC, ambientC float64) bool {
	return w.sound() && finite(amps) && finite(startC) && finite(limitC) &&
		ambientC >= leastAmbientC && max(startC, limitC, ambientC) <= MeltingC
}

// warming adds up the time over equal steps of the surface's temperature, from
// which the copper's follows.
func (w Wire) warming(amps, ambientC, fromC, toC float64) float64 {
	stored := copperHeat * w.copperM2()
	step := (toC - fromC) / panels
	seconds, copperC := 0.0, w.copperAt(fromC, ambientC)
	if w.surplus(amps, toC, ambientC) <= 0 {
		return math.Inf(1)
	}
	for i := range panels {
		left := w.surplus(amps, fromC+step*(float64(i)+0.5), ambientC)
		if left <= 0 {
			return math.Inf(1)
		}
		next := w.copperAt(fromC+step*float64(i+1), ambientC)
		seconds += stored * (next - copperC) / left
		copperC = next
	}
	return seconds
}

// copperM2 is the copper's area in m2 that stores heat, from the resistance.
func (w Wire) copperM2() float64 { return copperRho / w.R20OhmPerM * 1e-6 }

// copperAt gives the copper's temperature in degC under a surface temperature.
func (w Wire) copperAt(surfaceC, ambientC float64) float64 {
	return surfaceC + surfaceLoss(w.OutsideDiameterMM, surfaceC, ambientC)*w.insulationRise()
}

// surplus is the heat in W/m that is made and not shed.
func (w Wire) surplus(amps, surfaceC, ambientC float64) float64 {
	shed := surfaceLoss(w.OutsideDiameterMM, surfaceC, ambientC)
	return amps*amps*tables.CopperAt(w.R20OhmPerM, surfaceC+shed*w.insulationRise()) - shed
}

// surfaceAt gives the surface's temperature in degC over a copper temperature.
func (w Wire) surfaceAt(copperC, ambientC float64) float64 {
	if copperC <= ambientC {
		return copperC
	}
	surfaceC, _ := firstRoot(func(surfaceC float64) float64 {
		return w.copperAt(surfaceC, ambientC) - copperC
	}, ambientC)
	return surfaceC
}
