package heat

import (
	"math"

	"hame/lang/tables"
)

// MeltingC is the temperature in degC above which nothing is computed: copper
// melts. What would get hotter is reported as +Inf.
var MeltingC = tables.Constant("copper_melting_point")

var (
	alpha, _        = tables.CopperAlpha()
	copperRho       = tables.Constant("copper_resistivity_20c")
	copperHeat      = tables.Constant("copper_heat_capacity")
	bundleK         = tables.Constant("bundle_conductivity")
	gapK            = tables.Constant("gap_conductivity")
	coverK          = tables.Constant("cover_conductivity")
	emissivity      = tables.Constant("insulation_emissivity")
	stefanBoltzmann = tables.Constant("stefan_boltzmann")
)

// Wire is an insulated copper wire.
type Wire struct {
	ConductorDiameterMM float64
	OutsideDiameterMM   float64
	R20OhmPerM          float64 // at 20 degC
	InsulationK         float64 // thermal conductivity in W/(m K)
}

// WireOf makes a wire of a cable designation and a size from the tables.
func WireOf(cable tables.CableType, size tables.Size) Wire {
	conductor, _ := tables.ConductorDiameterMM(size)
	return Wire{
		ConductorDiameterMM: conductor,
		OutsideDiameterMM:   tables.OutsideDiameterMM(cable, size).MM,
		R20OhmPerM:          tables.ResistancePerM(size).OhmPerM,
		InsulationK:         cable.Material.Conductivity,
	}
}

// sound tells whether the wire can be computed at all.
func (w Wire) sound() bool {
	return w.ConductorDiameterMM > 0 && w.OutsideDiameterMM >= w.ConductorDiameterMM &&
		w.OutsideDiameterMM < 1e4 && w.R20OhmPerM > 0 && w.InsulationK > 0
}

// insulationRise is the rise in K through the insulation for each W/m.
func (w Wire) insulationRise() float64 {
	return annulus(w.ConductorDiameterMM, w.OutsideDiameterMM, w.InsulationK)
}

// annulus is the rise in K for each W/m through a ring of conductivity k.
func annulus(inner, outer, k float64) float64 {
	return math.Log(outer/inner) / (2 * math.Pi * k)
}

// Single gives the conductor's temperature in degC of a wire alone in still
// air that carries amps. It's +Inf and false where no balance exists below the
// melting point of copper, or the wire or a figure makes no sense.
func Single(w Wire, amps, ambientC float64) (tempC float64, converged bool) {
	if !w.sound() || !finite(amps) || !(ambientC >= leastAmbientC && ambientC < MeltingC) {
		return math.Inf(1), false
	}
	loss := amps * amps * w.R20OhmPerM
	rise := w.insulationRise()
	surfaceC, watts, ok := balance(w.OutsideDiameterMM, loss, rise, ambientC)
	if !ok || surfaceC+watts*rise > MeltingC {
		return math.Inf(1), false
	}
	return surfaceC + watts*rise, true
}

// LimitAmps gives the current in A that brings a wire alone in still air to
// limitC; 0 where the ambient is as hot already or the wire makes no sense.
func LimitAmps(w Wire, limitC, ambientC float64) float64 {
	if !w.sound() || !(limitC > ambientC) || !(ambientC >= leastAmbientC) || !(limitC <= MeltingC) {
		return 0
	}
	surfaceC := w.surfaceAt(limitC, ambientC)
	watts := surfaceLoss(w.OutsideDiameterMM, surfaceC, ambientC)
	return math.Sqrt(watts / tables.CopperAt(w.R20OhmPerM, limitC))
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
