package core

import (
	"math"
	"slices"

	"hame/check/figures"
	"hame/lang/harness"
)

// bound is the harness of a pass, or nil.
func (p *Pass) bound() *harness.Harness {
	if p == nil {
		return nil
	}
	return p.Run.Harness
}

func (p *Pass) wire(name string) *figures.Wire {
	if p.bound() == nil || p.Run.Figures == nil {
		return nil
	}
	for _, w := range p.Run.Figures.Wires {
		if w.Wire.Name == name {
			return w
		}
	}
	return nil
}

func (p *Pass) device(name string) *figures.Device {
	if p.bound() == nil || p.Run.Figures == nil {
		return nil
	}
	for _, d := range p.Run.Figures.Devices {
		if d.Device.Name == name {
			return d
		}
	}
	return nil
}

func (p *Pass) mode(name string) *figures.Mode {
	if p.bound() == nil || p.Run.Figures == nil {
		return nil
	}
	for _, m := range p.Run.Figures.Modes {
		if m.Mode.Name == name {
			return m
		}
	}
	return nil
}

// protects lists the wires that a device or a panel's way protects.
func (p *Pass) protects(name string) []string {
	var list []string
	if p.bound() == nil || p.Run.Figures == nil {
		return nil
	}
	for _, w := range p.Run.Figures.Wires {
		if slices.Contains(w.ProtectedBy, name) {
			list = append(list, w.Wire.Name)
		}
	}
	return list
}

// wayLoad is the worst current through a terminal: the greatest of the wires
// that land on it.
func (p *Pass) wayLoad(t *harness.Terminal) *float64 {
	var most *float64
	for _, w := range t.Wires {
		if f := p.wire(w.Name); f != nil && f.WorstA != nil && (most == nil || *f.WorstA > *most) {
			most = f.WorstA
		}
	}
	return most
}

// least is the mode in which a device that is on gets the least volts, nil
// where it is on in none.
func least(d *figures.Device) *figures.DeviceMode {
	var out *figures.DeviceMode
	for i := range d.Modes {
		m := &d.Modes[i]
		if m.On && m.Volts != nil && (out == nil || math.Abs(*m.Volts) < math.Abs(*out.Volts)) {
			out = m
		}
	}
	return out
}
