package facts

import (
	"math"

	"hame/check/figures"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// onShare is the share of its rated current from which a load counts as on.
const onShare = 0.02

// device works out one device's figures.
func (f *Facts) device(d *harness.Device) *figures.Device {
	fd := &figures.Device{Device: d}
	elements := f.elementsOf(d)
	for _, i := range elements {
		if w := f.Survey.Worst[i]; fd.WorstA == nil || math.Abs(w.Amps) > *fd.WorstA {
			fd.WorstA = figures.Amount(math.Abs(w.Amps))
			if w.At != nil {
				fd.Worst = f.position(w.At)
			}
		}
	}
	for n, m := range f.Harness.Modes {
		fd.Modes = append(fd.Modes, f.inMode(m.Name, f.Survey.Modes[n], elements))
	}
	return fd
}

// elementsOf lists the elements by which a device is spoken of: a load's
// inputs, a relay's coil, a supply's poles, a protective device's paths, a
// switch's contacts.
func (f *Facts) elementsOf(d *harness.Device) []int {
	var list []int
	for _, i := range f.devices[d] {
		e := &f.Network.Elements[i]
		switch e.Kind {
		case network.Load:
			if !e.Load.Hidden() && e.Load.Sort != "converter" {
				list = append(list, i)
			}
		case network.Source, network.Fuse:
			list = append(list, i)
		case network.Contact, network.Diode:
			if !d.Is(kinds.Switch, "relay") {
				list = append(list, i)
			}
		}
	}
	return list
}

// inMode sums a device up in one mode: the volts of its first element that is
// on, and all their currents.
func (f *Facts) inMode(mode string, p *states.Point, elements []int) figures.DeviceMode {
	m := figures.DeviceMode{Mode: mode}
	if len(elements) == 0 {
		return m
	}
	volts, amps := p.Across(elements[0]), 0.0
	for _, i := range elements {
		amps += p.Amps(i)
		if f.On(p, i) {
			m.On = true
			if math.Abs(p.Across(i)) > math.Abs(volts) {
				volts = p.Across(i)
			}
		}
	}
	m.Volts, m.CurrentA = figures.Amount(clean(volts)), figures.Amount(clean(amps))
	return m
}

// On reports whether an element is at work in a position: a load that draws, a
// relay that is in, a contact or device that carries current.
func (f *Facts) On(p *states.Point, i int) bool {
	e := &f.Network.Elements[i]
	amps := math.Abs(p.Amps(i))
	switch {
	case e.Load != nil && e.Load.Coil != nil:
		return p.In[i]
	case e.Load != nil && e.Load.AmpsAtRated() > 0:
		return amps > onShare*e.Load.AmpsAtRated()
	}
	const nothing = 1e-6
	return amps > nothing
}

// mode works out one mode's balance.
func (f *Facts) mode(m *harness.Mode, p *states.Point) *figures.Mode {
	fm := &figures.Mode{Mode: m}
	var loads, battery, charge float64
	for i, e := range f.Network.Elements {
		switch {
		case e.Kind == network.Load && e.Load.Sort != "converter":
			loads += math.Abs(p.Amps(i))
		case e.Kind == network.Source && e.Source.Sort == "battery" && e.Device.Is(kinds.Supply, "battery"):
			battery += p.Amps(i)
			charge += e.Source.CapacityA
		}
	}
	fm.SupplyA, fm.BatteryA = figures.Amount(clean(loads)), figures.Amount(clean(battery))
	if battery > 0.001 && charge > 0 {
		fm.HoursToFlat = figures.Amount(charge * m.Charge / battery)
	}
	return fm
}

// byDevice lists every device's elements.
func byDevice(n *network.Network) map[*harness.Device][]int {
	list := map[*harness.Device][]int{}
	for i, e := range n.Elements {
		if e.Device != nil && e.Wire == nil {
			list[e.Device] = append(list[e.Device], i)
		}
	}
	return list
}

// position is a position as reports print it, made once for all that share it.
func (f *Facts) position(p *states.Position) *figures.Position {
	shown, ok := f.shown[p]
	if !ok {
		shown = p.Figure()
		f.shown[p] = shown
	}
	return shown
}
