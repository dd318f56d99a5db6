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

// index finds figures by the names of what they are of.
type index struct {
	wires    map[string]*figures.Wire
	devices  map[string]*figures.Device
	modes    map[string]*figures.Mode
	protects map[string][]string // wires, by what protects them
}

// figures is the index of a pass, made once somebody asks. One with no figures
// has an empty one.
func (p *Pass) figures() *index {
	p.once.Do(func() {
		p.index = index{map[string]*figures.Wire{}, map[string]*figures.Device{}, map[string]*figures.Mode{}, map[string][]string{}}
		if p.Run.Figures == nil {
			return
		}
		for _, w := range p.Run.Figures.Wires {
			p.index.wires[w.Wire.Name] = w
			for _, by := range slices.Compact(slices.Sorted(slices.Values(w.ProtectedBy))) {
				p.index.protects[by] = append(p.index.protects[by], w.Wire.Name)
			}
		}
		for _, d := range p.Run.Figures.Devices {
			p.index.devices[d.Device.Name] = d
		}
		for _, m := range p.Run.Figures.Modes {
			p.index.modes[m.Mode.Name] = m
		}
	})
	return &p.index
}

func (p *Pass) wire(name string) *figures.Wire     { return p.figures().wires[name] }
func (p *Pass) device(name string) *figures.Device { return p.figures().devices[name] }
func (p *Pass) mode(name string) *figures.Mode     { return p.figures().modes[name] }

// protects lists the wires that a device or a panel's way protects.
func (p *Pass) protects(name string) []string { return p.figures().protects[name] }

// wayLoad is the worst current through a terminal, and where it flows: the
// greatest of the wires that land on it.
func (p *Pass) wayLoad(t *harness.Terminal) (most *float64, at *figures.Position) {
	for _, w := range t.Wires {
		if f := p.wire(w.Name); f != nil && f.WorstA != nil && (most == nil || *f.WorstA > *most) {
			most, at = f.WorstA, f.Worst
		}
	}
	return most, at
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
