package facts

import (
	"math"

	"hame/check/figures"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/slab"
)

// onShare is the share of its rated current from which a load counts as on.
const onShare = 0.02

// deviceFigures is a device's figures with what they point to.
type deviceFigures struct {
	figures.Device
	worstA float64
}

// modeFigures is what the figures of a device in one mode point to.
type modeFigures struct{ volts, currentA float64 }

// toDevices works out the figures of some devices.
func (f *Facts) toDevices(from, to int) {
	modes := len(f.Harness.Modes)
	list := make([]deviceFigures, to-from)
	inModes, amounts := make([]figures.DeviceMode, len(list)*modes), make([]modeFigures, len(list)*modes)
	for k := range list {
		fd := &list[k]
		fd.Device.Device = f.Harness.Devices[from+k]
		fd.Modes = inModes[k*modes : (k+1)*modes : (k+1)*modes]
		f.device(fd, amounts[k*modes:])
		f.Figures.Devices[from+k] = &fd.Device
	}
}

// device works out one device's figures.
func (f *Facts) device(fd *deviceFigures, amounts []modeFigures) {
	d := fd.Device.Device
	elements := f.elementsOf(d)
	if sum := f.sums.of[d.Index]; sum != nil {
		f.greatest(fd, f.bounded(sum))
	} else {
		for _, i := range elements {
			f.greatest(fd, f.Survey.Worst[i])
		}
	}
	for n, m := range f.Harness.Modes {
		fd.Modes[n].Mode = m.Name
		if p := f.Survey.Modes[n]; len(elements) > 0 && p.Failed == nil {
			f.inMode(&fd.Modes[n], &amounts[n], p, d)
		}
	}
}

// greatest takes a current over where it is more than what stands there.
func (f *Facts) greatest(fd *deviceFigures, w states.Worst) {
	size := clean(math.Abs(w.Amps))
	if fd.WorstA != nil && size <= fd.worstA || !f.Judged() {
		return
	}
	fd.worstA, fd.WorstA, fd.Worst = size, &fd.worstA, nil
	if w.At != nil && size > 0 {
		fd.Worst = f.position(w.At, w.Bound)
	}
}

// elementsOf lists the elements by which a device is spoken of: a load's
// inputs, a relay's coil, a supply's poles, a tap's run, a protective device's
// paths, a switch's contacts.
func (f *Facts) elementsOf(d *harness.Device) []int { return f.spoken[d.Index] }

// speaks reports whether an element is one by which its device is spoken of.
func (f *Facts) speaks(e *network.Element) bool {
	d := e.Device
	switch {
	case d == nil || e.Wire != nil:
		return false
	case d.Is(kinds.Supply, "tap"):
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
func (f *Facts) inMode(m *figures.DeviceMode, of *modeFigures, p *states.Point, d *harness.Device) {
	elements, sum := f.elementsOf(d), f.sums.of[d.Index]
	volts, amps := p.Across(elements[0]), 0.0
	for _, i := range elements {
		if sum == nil && math.Abs(p.Amps(i)) > math.Abs(amps) {
			amps = p.Amps(i)
		}
		if f.On(p, i) {
			m.On = true
			if math.Abs(p.Across(i)) > math.Abs(volts) {
				volts = p.Across(i)
			}
		}
	}
	if sum != nil {
		amps = sum.in(p)
	}
	if d.Is(kinds.Supply, "tap") {
		volts = p.Volts(f.Network.Elements[elements[0]].B) - p.Volts(f.Network.Low(d))
	}
	*of = modeFigures{clean(volts), clean(amps)}
	m.Volts, m.CurrentA = &of.volts, &of.currentA
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
	for i := range f.Network.Elements {
		e := &f.Network.Elements[i]
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

// bySpeaking lists, for every device, the elements by which it is spoken of.
func (f *Facts) bySpeaking() [][]int {
	count := make([]int, len(f.Harness.Devices))
	for i := range f.Network.Elements {
		if e := &f.Network.Elements[i]; f.speaks(e) {
			count[e.Device.Index]++
		}
	}
	list := make([][]int, len(count))
	var lists slab.Of[int]
	for d, n := range count {
		list[d] = lists.Take(n)[:0]
	}
	for i := range f.Network.Elements {
		if e := &f.Network.Elements[i]; f.speaks(e) {
			list[e.Device.Index] = append(list[e.Device.Index], i)
		}
	}
	return list
}
