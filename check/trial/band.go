package trial

import (
	"math"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/tables"
)

// What may differ from what is stated without anything being wrong: common
// practice, no source.
const (
	sourceShare   = 0.02 // a battery about 25 points of charge off, a regulator's set point
	crankingShare = 0.1  // how far a battery sags
	drawShare     = 0.1  // loads against their data plates
	copperShare   = 0.05 // cut lengths; conductors against the greatest resistance of their size
	contactLeast  = 0.7  // of a typical new contact
	contactMost   = 1.5
	acceptsLeast  = 0.05 // of what a battery takes at most: a full one takes next to nothing
	fuseShare     = 0.15
	openShare     = 0.15 // of volts with a load unplugged or a fuse pulled: there the sign counts
)

// Reasons says what a band is made of, as sheets print it.
var Reasons = []string{
	"Bands come from the model solved again at sixteen corners: sources 2 % up and down (while cranking 10 %), loads 10 % up and down, wires cold and short against hot and long (5 % of length, contacts from 0.7 to 1.5 of their typical resistance), batteries hungry and full, and the meter on top (common practice, no source).",
	"Cold and hot are the least and the greatest ambient of the zones, or what the mode states; a wire's own heat is added.",
	"Meter: 0.5 % and 20 mV, in its millivolt range 0.5 mV; a clamp 2.5 % and 0.1 A; ohms 0.2 after the leads were shorted and set to nothing (common practice, no source).",
}

// corner is one end of everything that may differ.
type corner struct{ source, load, ohm, hunger float64 } // each -1 or 1

// allCorners are all of them.
func (p *planner) allCorners() []*Variant {
	var list []*Variant
	warmer := p.ownHeat()
	side := func(k, bit int) float64 { return float64(k>>bit&1)*2 - 1 }
	for k := range 16 {
		c := corner{side(k, 0), side(k, 1), side(k, 2), side(k, 3)}
		v := p.plan.Model.With(func(elements []network.Element) {
			for i := range elements {
				c.change(&elements[i], warmer[i])
			}
		})
		if c.ohm < 0 {
			v.corner = states.ColdFull
		}
		list = append(list, v)
	}
	return list
}

// ownHeat is by how much each wire's copper rises at most by its own heat.
func (p *planner) ownHeat() []float64 {
	list := make([]float64, len(p.n.Elements))
	for i := range list {
		list[i] = 1
		w := p.n.Elements[i].Wire
		if w == nil {
			continue
		}
		for n, point := range p.f.Survey.Modes {
			cold := tables.CopperAt(1, p.f.SolvedC(i, &point.Position))
			list[i] = max(list[i], tables.CopperAt(1, p.f.ModeC(w, n))/cold)
		}
	}
	return list
}

func (c corner) change(e *network.Element, warmer float64) {
	switch e.Kind {
	case network.Wire:
		copper := network.WireOhm(e.Wire)
		contacts := e.Ohm - copper
		if c.ohm < 0 {
			e.Ohm = copper*(1-copperShare) + contacts*contactLeast
		} else {
			e.Ohm = copper*(1+copperShare)*warmer + contacts*contactMost
		}
	case network.Joint, network.Contact:
		e.Ohm *= pick(c.ohm, contactLeast, contactMost)
	case network.Fuse:
		e.Ohm *= 1 + c.ohm*fuseShare
	case network.Load:
		e.Load = Scaled(e.Load, 1+c.load*drawShare)
	case network.Source:
		spec := *e.Source
		spec.NominalV *= 1 + c.source*sourceShare
		spec.SagsV *= 1 + c.source*crankingShare
		if c.hunger < 0 {
			spec.AcceptsA *= acceptsLeast
		}
		e.Source = &spec
	}
}

func pick(side, low, high float64) float64 {
	if side < 0 {
		return low
	}
	return high
}

// Scaled is a load that draws more by a factor.
func Scaled(l *network.LoadSpec, factor float64) *network.LoadSpec {
	spec := *l
	spec.Amps *= factor
	spec.Watts *= factor
	spec.StandbyA *= factor
	if spec.Ohm > 0 {
		spec.Ohm /= max(factor, 1e-9)
	}
	return &spec
}

// band is the least and the greatest that a probe reads while all is well.
func (p *planner) band(probe Probe, value float64, u Unit) (low, high float64) {
	low, high = value, value
	if len(probe.Open) > 0 {
		low, high = value-openShare*math.Abs(value), value+openShare*math.Abs(value)
	} else {
		for _, v := range p.corners {
			if at, ok := v.Value(probe); ok {
				low, high = min(low, at), max(high, at)
			}
		}
	}
	return low - u.Tolerance(low), high + u.Tolerance(high)
}
