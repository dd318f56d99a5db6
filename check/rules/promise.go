package rules

import (
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/quantity"
)

// promise is a requirement with the elements that it speaks of.
type promise struct {
	*harness.Require
	elements []int
}

// nonsense reports whether the figure is none of what is spoken of.
func (r *promise) nonsense() bool {
	switch r.What {
	case "warmth":
		return r.Wire == nil
	case "volts":
		return r.Wire != nil || len(r.elements) == 0
	}
	return r.Wire == nil && len(r.elements) == 0
}

// promised finds the elements that a requirement is about.
func (c *Context) promised(r *harness.Require) *promise {
	p := &promise{Require: r}
	if r.Wire != nil {
		p.elements = []int{c.Network.OfWire(r.Wire)}
		return p
	}
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		if e.Device == r.Device && e.Wire == nil && speaksOf(e, r) && (r.Way == nil || e.A == r.Way.Index || e.B == r.Way.Index) {
			p.elements = append(p.elements, i)
		}
	}
	return p
}

// speaksOf: volts are across a load, a coil or a supply; a current is through a
// load, a contact or a protective device, or out of a supply.
func speaksOf(e *network.Element, r *harness.Require) bool {
	switch e.Kind {
	case network.Load:
		coil := e.Load.Coil != nil
		return !e.Load.Hidden() && e.Load.Sort != "converter" && (!coil || r.What != "current" || r.Way != nil)
	case network.Source:
		return r.What != "drop"
	case network.Fuse, network.Contact, network.Diode:
		return !r.Device.Is(kinds.Supply) && r.What != "volts"
	case network.Joint:
		return r.Device.Is(kinds.Supply, "tap") && r.What != "drop" || r.Device.Is(kinds.Join, "connector") && r.What != "volts"
	}
	return false
}

// value is what a figure is in a mode; false where it lacks a fact.
func (c *Context) value(r *promise, n int) (float64, bool) {
	p := c.Survey.Modes[n]
	switch r.What {
	case "volts":
		return c.voltsIn(r, p), true
	case "current":
		return c.currentIn(r, p), true
	case "warmth":
		if _, ok := c.Warmth(r.Wire); !ok {
			return 0, false
		}
		return c.ModeC(r.Wire, n), true
	}
	return c.dropIn(r, n)
}

// voltsIn is the volts of the one among several inputs that is on, or those of
// the first.
func (c *Context) voltsIn(r *promise, p *states.Point) float64 {
	if r.Device.Is(kinds.Supply, "tap") {
		return p.Volts(r.Device.Terminal("out").Index)
	}
	volts := p.Across(r.elements[0])
	for _, i := range r.elements {
		if v := p.Across(i); c.On(p, i) && math.Abs(v) > math.Abs(volts) {
			volts = v
		}
	}
	return volts
}

// currentIn is positive into a load and out of a supply, and of a wire from its
// first end to its second where the limit is not above nothing: there the
// direction is what is promised. Else a wire's, contact's or device's counts
// whichever way it flows, for their ends have no order that a reader would know.
func (c *Context) currentIn(r *promise, p *states.Point) float64 {
	sum := 0.0
	for _, i := range r.elements {
		sum += p.Amps(i)
	}
	if r.Device != nil && (r.Device.Is(kinds.Load) || r.Device.Is(kinds.Supply)) {
		return sum - c.ownCircuit(r, p)
	}
	if r.Limit.SI <= 0 {
		return sum
	}
	return math.Abs(sum)
}

// ownCircuit is what a tap feeds beside what is borrowed from it.
func (c *Context) ownCircuit(r *promise, p *states.Point) float64 {
	sum := 0.0
	for i := range c.Network.Elements {
		e := &c.Network.Elements[i]
		if e.Kind == network.Load && e.Load.Sort == "carries" && e.Device == r.Device {
			sum += p.Amps(i)
		}
	}
	return sum
}

// dropIn is the greatest loss from source to load and back; of a wire, contact
// or device its own.
func (c *Context) dropIn(r *promise, n int) (float64, bool) {
	p := c.Survey.Modes[n]
	if r.Wire != nil {
		if d := c.Wire(r.Wire).Modes[n].DropV; d != nil {
			return *d, true
		}
		return 0, false
	}
	most := 0.0
	for _, i := range r.elements {
		if c.Network.Elements[i].Kind != network.Load {
			most = max(most, c.lostIn(i, p))
			continue
		}
		d, ok := c.DropTo(p, i, func(w *harness.Wire) float64 { return c.ModeC(w, n) })
		if ok && !c.wayKnown(d) {
			return 0, false
		}
		most = max(most, d.Volts)
	}
	return most, true
}

// lostIn is what an element that carries current keeps for itself.
func (c *Context) lostIn(i int, p *states.Point) float64 {
	if e := &c.Network.Elements[i]; e.Kind == network.Contact && !c.Closed(p, i) {
		return 0
	}
	return math.Abs(p.Across(i))
}

// on reports whether what is spoken of is on in a mode: a supply always is.
func (c *Context) onIn(r *promise, n int) bool {
	p := c.Survey.Modes[n]
	if r.Device != nil && r.Device.Is(kinds.Supply) {
		return true
	}
	return slices.ContainsFunc(r.elements, func(i int) bool { return c.On(p, i) })
}

// limitSI is the limit in the figure's unit: a share of a drop is of the
// system's volts.
func (c *Context) limitSI(r *promise) (limit float64, unit string) {
	if r.Limit.Dim == quantity.Ratio {
		systemV := c.Harness.SystemV
		if r.Device != nil {
			if v, ok := r.Device.SystemV(); ok {
				systemV = v
			}
		}
		return r.Limit.SI * systemV, "V"
	}
	return r.Limit.SI, map[string]string{"volts": "V", "drop": "V", "current": "A", "warmth": "degC"}[r.What]
}
