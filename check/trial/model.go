package trial

import (
	"slices"

	"hame/check/network"
	"hame/check/states"
)

// Model solves a plan's settings in a harness's network and in networks that
// differ from it.
type Model struct {
	Network  *network.Network
	Settings []Setting
}

// Variant is the network with something changed, solved as far as it was asked.
type Variant struct {
	model  *Model
	net    *network.Network
	corner states.Corner
	solver *states.Solver
	points []*states.Point
	opened *states.Point // the last that was solved with elements open, and which
	openIn int
	open   []int
}

// With is the network with its elements changed. Change may set fields of the
// elements; what they point at belongs to all variants and must be copied first.
func (m *Model) With(change func(elements []network.Element)) *Variant {
	n := *m.Network
	n.Elements = slices.Clone(n.Elements)
	change(n.Elements)
	return m.variant(&n)
}

// AsIs is the network with nothing changed.
func (m *Model) AsIs() *Variant { return m.variant(m.Network) }

func (m *Model) variant(n *network.Network) *Variant {
	return &Variant{model: m, net: n, corner: states.AsStated, points: make([]*states.Point, len(m.Settings))}
}

// Point is a setting solved.
func (v *Variant) Point(setting int) *states.Point {
	if v.points[setting] == nil {
		v.points[setting] = v.solve(setting)
	}
	return v.points[setting]
}

// Without is a setting solved with elements open.
func (v *Variant) Without(setting int, open ...int) *states.Point {
	if len(open) == 0 {
		return v.Point(setting)
	}
	if v.opened == nil || v.openIn != setting || !slices.Equal(v.open, open) {
		v.openIn, v.open, v.opened = setting, slices.Clone(open), v.solve(setting, open...)
	}
	return v.opened
}

func (v *Variant) solve(setting int, open ...int) *states.Point {
	if v.solver == nil {
		v.solver = states.NewSolver(v.net)
	}
	at := v.model.Settings[setting].Position
	at.Corner = v.corner
	return v.solver.SolveWithout(at, open...)
}

// Value is what a probe measures in the variant, in SI; false where the setting
// has no solution or the probe is none of the model's.
func (v *Variant) Value(p Probe) (float64, bool) {
	switch {
	case p.Setting < 0 && p.Element >= 0:
		return v.net.Elements[p.Element].Ohm, true
	case p.Setting < 0:
		return 0, false
	}
	at := v.Without(p.Setting, p.Open...)
	if at.Failed != nil {
		return 0, false
	}
	if p.Amps {
		return at.Amps(p.Element), true
	}
	return at.Volts(p.A) - at.Volts(p.B), true
}
