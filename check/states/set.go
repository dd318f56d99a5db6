package states

import (
	"hame/check/circuit"
	"hame/check/network"
	"hame/lang/tables"
)

// ambient is an element's temperature in a position, its own heat left out.
func (s *Solver) ambient(i int, p *Position) float64 {
	switch {
	case p.AmbientC != nil:
		return *p.AmbientC
	case p.Corner == ColdFull:
		return s.coldC[i]
	}
	return s.hotC[i]
}

// warmth is all that temperatures hang on beside an element's place.
type warmth struct {
	set, cold, stated bool
	statedC           float64
}

func warmthOf(p *Position) warmth {
	if p.AmbientC != nil {
		return warmth{set: true, stated: true, statedC: *p.AmbientC}
	}
	return warmth{set: true, cold: p.Corner == ColdFull}
}

// set puts everything but the relays where the position has it. Most positions
// come after one of the same warmth, and most loads are as they were built in all.
func (s *Solver) set(p *Position) {
	if warm := warmthOf(p); s.warmth != warm {
		for _, i := range s.wires {
			s.state.SetOhm(s.branches[i], tables.CopperAt(s.Network.Elements[i].Ohm, s.ambient(int(i), p)))
		}
		s.warmth = warm
	}
	for _, i := range s.gates {
		s.state.Switch(s.branches[i], closed(&s.Network.Elements[i], p))
	}
	for _, i := range s.fickle {
		s.setLoad(s.branches[i], i, p)
	}
	for _, i := range s.sources {
		s.setSource(s.branches[i], s.Network.Elements[i].Source, p)
	}
}

// fickle: what a load is hangs on the position.
func fickle(l *network.LoadSpec) bool {
	return l.When != network.Always || l.StandbyA > 0 || l.Coil != nil
}

func (s *Solver) setLoad(br circuit.Branch, i int, p *Position) {
	l := s.Network.Elements[i].Load
	s.state.Switch(br, draws(l, p))
	switch {
	case l.Coil != nil && l.Ohm > 0:
		s.state.SetOhm(br, tables.CopperAt(l.Ohm, s.ambient(i, p)))
	case l.StandbyA > 0 && p.Key == "off":
		s.state.SetCurrent(br, circuit.Motor{Amps: l.StandbyA, AtVolts: l.AtV})
	case l.StandbyA > 0:
		s.restore(br, l)
	}
}

// restore undoes a load's standby.
func (s *Solver) restore(br circuit.Branch, l *network.LoadSpec) {
	switch {
	case l.Ohm > 0:
		s.state.SetOhm(br, l.Ohm)
	case l.Watts > 0 && l.Sort == "bulb":
		s.state.SetBulb(br, circuit.Bulb{Watts: l.Watts, AtVolts: l.AtV})
	case l.Watts > 0:
		s.state.SetPower(br, circuit.Power{Watts: l.Watts, LeastVolts: l.LeastV})
	case l.Amps > 0:
		s.state.SetCurrent(br, circuit.Motor{Amps: l.Amps, AtVolts: l.AtV, Exponent: l.Power})
	default:
		s.state.SetOhm(br, unknownOhm)
	}
}

// closed says where a contact stands that no relay works; a relay's begins at
// rest.
func closed(e *network.Element, p *Position) bool {
	throw := 0
	if e.Gate.By == network.Hand {
		throw = p.Throws[e.Device]
	}
	return e.Gate.Stands(p.Key, p.Engine, throw)
}

func draws(l *network.LoadSpec, p *Position) bool {
	switch l.When {
	case network.KeyOff:
		return p.Key == "off"
	case network.KeyOn:
		return p.Key != "off"
	case network.EngineOn:
		return p.Engine == "idle" || p.Engine == "running"
	case network.Cranking:
		return p.Engine == "cranking"
	}
	return true
}

// crankedOhm is what is left of a battery's resistance where its voltage while
// cranking is declared as such.
const crankedOhm = 0.0001

func (s *Solver) setSource(br circuit.Branch, spec *network.SourceSpec, p *Position) {
	switch spec.Sort {
	case "battery":
		s.state.SetSource(br, batteryAt(spec, p))
	case "alternator":
		most := spec.OutputA
		if p.Engine == "idle" {
			most = spec.IdleA
		}
		s.state.Switch(br, p.Engine == "idle" || p.Engine == "running")
		s.state.SetSource(br, circuit.Source{Volts: spec.NominalV, Ohm: spec.Ohm, MostOut: most})
	}
}

func batteryAt(spec *network.SourceSpec, p *Position) circuit.Source {
	if p.Engine == "cranking" {
		return circuit.Source{Volts: spec.SagsV, Ohm: crankedOhm, MostOut: circuit.Unlimited, MostIn: spec.AcceptsA}
	}
	const ratedC = 26.7 // of the open-circuit table
	volts, _, ok := tables.OpenCircuitVolts(spec.Chemistry, 100*p.Charge, ratedC)
	if !ok {
		volts = 12
	}
	return circuit.Source{Volts: volts * spec.NominalV / 12, Ohm: spec.Ohm, MostOut: circuit.Unlimited, MostIn: spec.AcceptsA}
}
