package trip

import (
	"math"

	"hame/check/heat"
	"hame/lang/tables"
)

// AdiabaticS is how long in s a conductor may be taken to lose no heat
// (IEC 60364-4-43).
const AdiabaticS = 5

// KFactor gives the adiabatic factor of copper in A s^0.5/mm2 between two
// temperatures in degC, by the form of IEC 60949; 0 where finalC isn't above
// initialC.
func KFactor(initialC, finalC float64) float64 {
	offset := tables.Constant("copper_zero_resistance_offset")
	if !(finalC > initialC) || initialC <= -offset {
		return 0
	}
	return tables.Constant("copper_k_constant") * math.Sqrt(math.Log1p((finalC-initialC)/(offset+initialC)))
}

// LeastAreaMM2 gives the least copper in mm2 that carries a fault for a time
// of at most AdiabaticS.
func LeastAreaMM2(amps, seconds, k float64) float64 {
	return math.Abs(amps) * math.Sqrt(seconds) / k
}

// Conductor is a wire as a fault sees it.
type Conductor struct {
	CopperMM2   float64 // for the adiabatic limit
	InsulationC float64 // temperature class; where the fault starts from
	FinalC      float64 // short-time limit of the insulation
	AmbientC    float64
	Wire        heat.Wire // for what takes longer
}

// ConductorOf makes a conductor of a cable designation and size. A gauge has
// the copper of the least SAE area.
func ConductorOf(cable tables.CableType, size tables.Size, ambientC float64) Conductor {
	copper, _ := size.CopperMM2()
	return Conductor{
		CopperMM2: copper, InsulationC: cable.TemperatureC, FinalC: cable.Material.FinalC,
		AmbientC: ambientC, Wire: heat.WireOf(cable, size),
	}
}

// K is the conductor's adiabatic factor in A s^0.5/mm2.
func (c Conductor) K() float64 { return KFactor(c.InsulationC, c.FinalC) }

// WithstandA2S is the I2t in A2 s that the conductor stands without loss of
// heat: (k S)2.
func (c Conductor) WithstandA2S() float64 {
	kS := c.K() * c.CopperMM2
	return kS * kS
}

// WithstandSeconds gives how long the conductor, at its temperature class to
// begin with, stands a current before its short-time limit: (k S)2/I2 up to
// AdiabaticS, the heat model beyond. +Inf where it never gets there; 0 where a
// figure makes no sense.
func (c Conductor) WithstandSeconds(amps float64) float64 {
	if amps == 0 {
		return math.Inf(1)
	}
	seconds, more := c.adiabaticSeconds(amps)
	if !more {
		return seconds
	}
	longer := heat.TransientSeconds(c.Wire, amps, c.InsulationC, c.FinalC, c.AmbientC)
	if math.IsNaN(longer) {
		return 0
	}
	return max(AdiabaticS, longer)
}

// adiabaticSeconds is how long the conductor stands a current above zero by (k S)2
// alone, up to AdiabaticS; more where the heat model says for how long beyond.
func (c Conductor) adiabaticSeconds(amps float64) (seconds float64, more bool) {
	seconds = c.WithstandA2S() / (amps * amps)
	switch {
	case math.IsNaN(seconds):
		return 0, false
	case seconds <= AdiabaticS:
		return seconds, false
	}
	return AdiabaticS, true
}

// Stands tells whether WithstandSeconds is at least so long. Within AdiabaticS,
// where most devices open, the heat model need not be asked.
func (c Conductor) Stands(amps, seconds float64) bool {
	if amps != 0 && seconds <= AdiabaticS {
		if least, more := c.adiabaticSeconds(amps); !more || heat.Warms(c.Wire, amps, c.InsulationC, c.FinalC, c.AmbientC) {
			return seconds <= least
		}
	}
	return seconds <= c.WithstandSeconds(amps)
}

// Race is a device against a conductor at one current.
type Race struct {
	Amps       float64
	OpensS     float64 // the device, at the slowest; +Inf where it may never
	WithstandS float64 // the conductor
	Protected  bool    // it opens, and in time
	Source     tables.Source
}

// Against lets a device race a conductor at a fault current. A device that
// may never open protects nothing.
func (d Device) Against(c Conductor, amps float64) Race {
	r := Race{
		Amps: amps, OpensS: d.SlowestSeconds(amps), WithstandS: c.WithstandSeconds(amps), Source: d.Source(),
	}
	r.Protected = !math.IsInf(r.OpensS, 1) && r.OpensS <= r.WithstandS
	return r
}

// InTime tells how Against ends, and no more.
func (d Device) InTime(c Conductor, amps float64) bool {
	opensS := d.SlowestSeconds(amps)
	return !math.IsInf(opensS, 1) && c.Stands(amps, opensS)
}
