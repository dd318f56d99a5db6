package states

import (
	"math"

	"hame/check/circuit"
	"hame/check/network"
	"hame/lang/tables"
)

// mostAmps is the most that a load draws while it gets from lo to hi volts. The
// laws are those of package circuit: below its knee a load of constant power
// peaks at 9/8 of its current there, at 3/4 of the knee's volts.
func mostAmps(l *network.LoadSpec, heat, lo, hi float64) float64 {
	switch {
	case hi <= 0:
		return 0
	case l.Ohm > 0 && l.Coil != nil:
		return hi / (l.Ohm * heat)
	case l.Ohm > 0:
		return hi / l.Ohm
	case l.Watts > 0 && l.Sort == "bulb":
		return bulbAmps(l.Watts, l.AtV, hi)
	case l.Watts > 0:
		return powerAmps(l.Watts, max(l.LeastV, 0.1), lo, hi)
	case l.Amps > 0:
		return motorAmps(l.Amps, max(l.AtV, 0.1), l.Power, hi)
	}
	return hi / unknownOhm
}

func powerAmps(watts, knee, lo, hi float64) float64 {
	x := min(hi/knee, 0.75)
	below := watts / knee * x * (3 - 2*x)
	if lo < knee {
		return below
	}
	return watts / lo
}

// motorAmps grows with the volts, and below a sixth of the rated ones is the
// parabola that meets it there.
func motorAmps(amps, at, power, hi float64) float64 {
	x := 6 * hi / at
	if x >= 1 {
		return amps * math.Pow(hi/at, power)
	}
	return amps * math.Pow(1.0/6, power) * x * ((2 - power) + (power-1)*x)
}

// bulbAmps: as the volts to the 0.55 or, where that is more than the cold
// filament takes, still no less than it.
func bulbAmps(watts, at, hi float64) float64 {
	const exponent, coldShare = 0.55, 1.0 / 12
	hot := watts / at * math.Pow(hi/at, exponent)
	cold := hi * watts / (at * at * coldShare)
	return min(hot*1.0000001, cold*1.0000001)
}

// supply is a source as a position has it.
type supply struct {
	volts, ohm float64
	gives      float64 // the most that it gives
	takes      float64 // the most that it takes
	off        bool
}

// supplyAt answers what setSource sets.
func supplyAt(spec *network.SourceSpec, p *Position) supply {
	switch spec.Sort {
	case "battery":
		s := batteryAt(spec, p)
		return supply{s.Volts, max(s.Ohm, circuit.LeastOhm), math.Inf(1), s.MostIn, false}
	case "alternator":
		on := p.Engine == "idle" || p.Engine == "running"
		most := spec.OutputA
		if p.Engine == "idle" {
			most = spec.IdleA
		}
		return supply{spec.NominalV, max(spec.Ohm, circuit.LeastOhm), most, 0, !on}
	}
	most := spec.OutputA
	if spec.Input < 0 {
		most = math.Inf(1)
	}
	return supply{spec.NominalV, max(spec.Ohm, circuit.LeastOhm), most, spec.AcceptsA, false}
}

// drawnBy is the most that a converter takes while it gives up to amps, its
// input being at least lo volts. Below its least input its volts fall as
// 3x²−2x³, so that it takes no more than 9/8 of what it does there.
func drawnBy(spec *network.SourceSpec, amps, lo float64) float64 {
	least := max(converterLeast*spec.TakesV, 0.1)
	watts := spec.NominalV * amps / min(max(spec.Efficient, 0.01), 1)
	if lo >= least {
		return watts / lo
	}
	return 1.125 * watts / least
}

// ohmAt is an element's resistance in a position; 0 for what is none.
func (s *Solver) ohmAt(i int, p *Position) float64 {
	e := &s.Network.Elements[i]
	ohm := e.Ohm
	switch e.Kind {
	case network.Wire:
		ohm = tables.CopperAt(ohm, s.ambient(i, p))
	case network.Diode:
		ohm = diodeOhm
	}
	return max(ohm, circuit.LeastOhm)
}
