package trip

import (
	"math"

	"hame/lang/tables"
)

const (
	mmPerInch = 25.4
	// coldC is what a link starts from in the slowest case.
	coldC = 20
)

// link is a fusible link: a wire that melts.
type link struct {
	areaMM2  float64
	ambientC float64
}

// NewLink makes a fusible link of a size, in an ambient that bounds its
// fastest time. False where the size or the ambient makes no sense.
func NewLink(size tables.Size, ambientC float64) (Device, bool) {
	l := link{size.AreaMM2(), ambientC}
	ok := sound(l.areaMM2) && ambientC > -200 && ambientC < tables.Constant("copper_melting_point")
	return Device{link: &l}, ok
}

// PreeceA gives the steady current in A that melts a bare copper wire of a
// diameter in mm (Preece).
func PreeceA(diameterMM float64) float64 {
	return tables.Constant("preece_copper") * math.Pow(diameterMM/mmPerInch, 1.5)
}

// OnderdonkA2S gives the I2t in A2 s that melts a copper wire of an area in
// mm2 from a temperature in degC, no heat being lost (Onderdonk; good below
// about 10 s).
func OnderdonkA2S(areaMM2, fromC float64) float64 {
	circularMils := areaMM2 / (math.Pi / 4) * math.Pow(1000/mmPerInch, 2)
	rise := tables.Constant("copper_melting_point") - fromC
	decades := math.Log10(rise/(tables.Constant("onderdonk_offset")+fromC) + 1)
	return circularMils * circularMils * decades / tables.Constant("onderdonk_divisor")
}

// steadyA is the steady current that melts the link.
func (l link) steadyA() float64 {
	return PreeceA(math.Sqrt(4 / math.Pi * l.areaMM2))
}

// slowest joins the two laws: a body that Onderdonk heats and that sheds at
// Preece's current all that it makes. At short times it's Onderdonk, and near
// the steady current it never opens. The joining is ours, an estimate.
func (l link) slowest(amps float64) float64 {
	steady := l.steadyA()
	if !(amps > steady) {
		return math.Inf(1)
	}
	share := steady / amps
	return -OnderdonkA2S(l.areaMM2, coldC) / (steady * steady) * math.Log1p(-share*share)
}

// fastest is Onderdonk from the ambient, above the steady current.
func (l link) fastest(amps float64) float64 {
	if !(amps > l.steadyA()) {
		return math.Inf(1)
	}
	return OnderdonkA2S(l.areaMM2, l.ambientC) / (amps * amps)
}
