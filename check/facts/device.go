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
	if sum := f.sums.of[d]; sum != nil {
		f.greatest(fd, f.bounded(sum))
	} else {
		for _, i := range elements {
			f.greatest(fd, f.Survey.Worst[i])
		}
	}
	for n, m := range f.Harness.Modes {
		fd.Modes = append(fd.Modes, f.inMode(m.Name, f.Survey.Modes[n], d, elements))
	}
	return fd
}

// greatest takes a current over where it is more than what stands there.
func (f *Facts) greatest(fd *figures.Device, w states.Worst) {
	size := clean(math.Abs(w.Amps))
	if fd.WorstA != nil && size <= *fd.WorstA || !f.Judged() {
		return
	}
	fd.WorstA, fd.Worst = figures.Amount(size), nil
	if w.At != nil && size > 0 {
		fd.Worst = f.position(w.At, w.Bound)
	}
}

// elementsOf lists the elements by which a device is spoken of: a load's
// inputs, a relay's coil, a supply's poles, a tap's run, a protective device's
// paths, a switch's contacts.
func (f *Facts) elementsOf(d *harness.Device) []int {
	var list []int
	for _, i := range f.devices[d] {
		if f.speaksFor(d, &f.Network.Elements[i]) {
			list = append(list, i)
		}
	}
	return list
}

func (f *Facts) speaksFor(d *harness.Device, e *network.Element) bool {
	if d.Is(kinds.Supply, "tap") {
		return e.Kind == network.Joint
	}
	switch e.Kind {
	case network.Load:
		return !e.Load.Hidden() && e.Load.Sort != "converter"
	case network.Source, network.Fuse:
		return true
	case network.Contact, network.Diode:
		return !d.Is(kinds.Switch, "relay")
	}
	return false
}

// inMode sums a device up in one mode: its volts are those of its first element
// that is on; its current is the sum of a panel's ways and a load's inputs, and
// that of the one contact of a switch that carries most.
func (f *Facts) inMode(mode string, p *states.Point, d *harness.Device, elements []int) figures.DeviceMode {
	m := figures.DeviceMode{Mode: mode}
	if len(elements) == 0 || p.Failed != nil {
		return m
	}
	volts, amps := p.Across(elements[0]), 0.0
	for _, i := range elements {
		if f.sums.of[d] == nil && math.Abs(p.Amps(i)) > math.Abs(amps) {
			amps = p.Amps(i)
		}
		if f.On(p, i) {
			m.On = true
			if math.Abs(p.Across(i)) > math.Abs(volts) {
				volts = p.Across(i)
			}
		}
	}
	if sum := f.sums.of[d]; sum != nil {
		amps = sum.in(p)
	}
	if d.Is(kinds.Supply, "tap") {
		volts = p.Volts(f.Network.Elements[elements[0]].B) - p.Volts(f.Network.Low(d))
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
	return amps > nothingA
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
func (f *Facts) position(p *states.Position, bound bool) *figures.Position {
	key := shownAs{p, bound}
	shown, ok := f.shown[key]
	if !ok {
		shown = p.Figure()
		shown.Bound = bound
		f.shown[key] = shown
	}
	return shown
}

// shownAs is a position with what stands beside it: that of a bound says so.
type shownAs struct {
	at    *states.Position
	bound bool
}
