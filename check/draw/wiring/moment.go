package wiring

import (
	"math"

	"hame/check/draw"
	"hame/check/facts"
	"hame/check/figures"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// moment is what is live in one mode. Of nil nothing is said.
type moment struct {
	name    string
	point   *states.Point
	scheme  *scheme
	devices map[*harness.Device]figures.DeviceMode
	wires   map[*harness.Wire]figures.WireMode
}

// momentOf finds a mode; nil where there is none of that name, or nothing could be
// worked out in it.
func (s *scheme) momentOf(mode string) *moment {
	for i, m := range s.harness.Modes {
		p := s.facts.Survey.Modes[i]
		if m.Name != mode || p.Failed != nil || s.facts.Shorted(p) {
			continue
		}
		out := &moment{name: mode, point: p, scheme: s, devices: map[*harness.Device]figures.DeviceMode{}, wires: map[*harness.Wire]figures.WireMode{}}
		for _, d := range s.facts.Figures.Devices {
			out.devices[d.Device] = d.Modes[i]
		}
		for _, w := range s.facts.Figures.Wires {
			out.wires[w.Wire] = w.Modes[i]
		}
		return out
	}
	return nil
}

// leastA is the current that is worth telling.
const leastA = 0.0005

// node reports whether a node is under voltage.
func (m *moment) node(n int) bool { return m != nil && facts.UnderVoltage(m.point, n) }

// wireLive reports whether a wire is under voltage.
func (m *moment) wireLive(w *harness.Wire) bool {
	return m != nil && facts.WireUnderVoltage(m.point, w)
}

// carries is a wire's current where it has any worth telling.
func (m *moment) carries(w *harness.Wire) string {
	if m == nil {
		return ""
	}
	a := m.wires[w].CurrentA
	switch {
	case a != nil && math.Abs(*a) >= leastA:
		return amps(math.Abs(*a))
	case m.wireLive(w):
		return "live"
	}
	return ""
}

// live reports whether a device is at work: any of its terminals is under voltage,
// and of a load that it draws.
func (m *moment) live(d *harness.Device) bool {
	if m == nil {
		return false
	}
	if d.Is(kinds.Load) {
		return m.devices[d].On
	}
	for _, t := range d.Terminals {
		if m.node(t.Index) {
			return true
		}
	}
	return false
}

// device is a device's volts and amperes.
func (m *moment) device(d *harness.Device) string {
	if m == nil || !d.Is(kinds.Load) && !d.Is(kinds.Supply) && !d.Is(kinds.Switch, "relay") {
		return ""
	}
	f := m.devices[d]
	switch {
	case f.Volts == nil || f.CurrentA == nil:
		return ""
	case d.Is(kinds.Switch, "relay"):
		if f.On {
			return "in, " + volts(math.Abs(*f.Volts))
		}
		return "out"
	case d.Is(kinds.Load) && !f.On:
		return "off"
	}
	text := volts(math.Abs(*f.Volts)) + ", "
	if d.Is(kinds.Supply) {
		text += map[bool]string{true: "takes ", false: "gives "}[*f.CurrentA < 0]
	}
	return text + amps(math.Abs(*f.CurrentA))
}

// way is the current of a panel's way.
func (m *moment) way(d *harness.Device, way string) string {
	if m == nil || !d.Is(kinds.Protection) {
		return ""
	}
	if i, ok := m.scheme.ways[d.Name+"."+way]; ok {
		if a := math.Abs(m.point.Amps(i)); a > leastA {
			return "· " + amps(a)
		}
	}
	return ""
}

// heavier is how many times as wide a wire is drawn that is live.
const heavier = 1.7

// strand draws a wire: heavier where it is live, with a dashed edge where it is the
// machine's own.
func strand(w *harness.Wire, points []draw.Point, live bool) []draw.Item {
	items := draw.Strand(points, w.Colour, w.Stripe)
	for i := range items {
		l := items[i].(draw.Line)
		if live {
			l.Ink.WidthMM *= heavier
		}
		switch {
		case w.Existing && i == 0:
			l.Ink.DashMM = 1.2
		case w.Existing:
			l.Ink.WidthMM *= 0.75 // more is seen of the dashes
		}
		items[i] = l
	}
	return items
}
