package faults

import (
	"math"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// supply is a source, or a string of batteries, as a short sees it.
type supply struct {
	leastV, mostV float64
	ohm           float64
	leastA, mostA float64 // the most that it gives, at its least and greatest output; +Inf where nothing limits it
	lacks         *finding.Need
}

// draw is the current of a loop, and whether the source limits it.
func (s *supply) draw(volts, ohm, most float64) (float64, bool) {
	amps := max(volts, 0) / max(ohm, 1e-6)
	return min(amps, most), amps > most
}

// supplyOf is a source and the node that its current comes back to: its
// negative, or that of the last battery of a string.
func supplyOf(n *network.Network, source int) (supply, int) {
	e := &n.Elements[source]
	s := alone(n, source)
	negative := e.A + e.B - n.Hot(source)
	for range maxString {
		if n.Return(negative) {
			break
		}
		next := under(n, negative, source)
		if next < 0 {
			break
		}
		more := alone(n, next)
		s.leastV, s.mostV, s.ohm = s.leastV+more.leastV, s.mostV+more.mostV, s.ohm+more.ohm
		if s.lacks == nil {
			s.lacks = more.lacks
		}
		negative = n.Elements[next].B
	}
	return s, negative
}

// maxString is how many batteries in series are followed.
const maxString = 16

// under is the battery whose positive lies at a node or behind wires and joints
// alone, or -1.
func under(n *network.Network, node, not int) int {
	seen := map[int]bool{node: true}
	for todo := []int{node}; len(todo) > 0; todo = todo[1:] {
		for _, i := range n.At[todo[0]] {
			e := &n.Elements[i]
			if e.Kind == network.Source && i != not && e.A == todo[0] && e.Source.Sort == "battery" {
				return i
			}
			next := e.A + e.B - todo[0]
			if (e.Kind == network.Wire || e.Kind == network.Joint) && !seen[next] {
				seen[next] = true
				todo = append(todo, next)
			}
		}
	}
	return -1
}

// alone is one source by itself.
func alone(n *network.Network, source int) supply {
	e := &n.Elements[source]
	spec := e.Source
	s := supply{leastV: spec.NominalV, mostV: spec.NominalV, ohm: spec.Ohm, leastA: math.Inf(1), mostA: math.Inf(1)}
	switch spec.Sort {
	case "alternator":
		s.leastA, s.mostA = spec.IdleA, spec.OutputA
	case "converter":
		s.leastA, s.mostA = spec.OutputA, spec.OutputA
	default:
		s.leastV = openVolts(spec, leastCharge(n))
		s.mostV = openVolts(spec, 1)
		s.lacks = unknownOhm(e)
	}
	return s
}

// unknownOhm is the fact that a battery's resistance waits for. Cranking
// amperes say nothing of a lithium battery, whose electronics limit them.
func unknownOhm(e *network.Element) *finding.Need {
	d := e.Device
	switch {
	case d.Is(kinds.Supply, "tap"):
		return &finding.Need{Name: d.Name, Setting: "of"}
	case e.Source.Chemistry != tables.Lead && !d.Has("resistance"):
		return &finding.Need{Name: d.Name, Setting: "resistance"}
	case !e.Source.OhmKnown:
		return &finding.Need{Name: d.Name, Setting: "cranking"}
	}
	return nil
}

func openVolts(spec *network.SourceSpec, charge float64) float64 {
	const ratedC = 26.7 // of the open-circuit table
	v, _, ok := tables.OpenCircuitVolts(spec.Chemistry, 100*charge, ratedC)
	if !ok {
		return spec.NominalV
	}
	return v * spec.NominalV / 12
}

// leastCharge is the least charge of any mode.
func leastCharge(n *network.Network) float64 {
	least := 0.8
	for i, m := range n.Harness.Modes {
		if i == 0 || m.Charge < least {
			least = m.Charge
		}
	}
	return least
}
