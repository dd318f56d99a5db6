package faults

import (
	"math"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

const (
	// roomC stands in for a zone without an ambient.
	roomC = 20.0
	// diodeOhm is a diode's slope (common practice, no source).
	diodeOhm = 0.01
)

// ohms is an element's resistance in ohm.
type ohms struct {
	cold, hot float64
	open      bool // it lacks a fact; cold is 0 then
}

// resistances are those of all elements.
func resistances(n *network.Network) []ohms {
	list := make([]ohms, len(n.Elements))
	for i := range list {
		e := &n.Elements[i]
		list[i] = resistance(e)
		if lacks(e) != nil {
			list[i].cold, list[i].open = 0, true
		}
	}
	return list
}

// resistance is an element's own, whatever it lacks.
func resistance(e *network.Element) ohms {
	const classC = 90 // the common one of machine wiring (common practice, no source)
	switch {
	case e.Kind == network.Diode:
		return ohms{hot: diodeOhm}
	case e.Kind == network.Wire:
		leastC, mostC := temperatures(e.Wire)
		return ohms{cold: tables.CopperAt(e.Ohm, leastC), hot: tables.CopperAt(e.Ohm, mostC)}
	case borrowed(e): // of the run's wire the class is not known
		return ohms{cold: e.Ohm, hot: tables.CopperAt(e.Ohm, classC)}
	}
	return ohms{cold: e.Ohm, hot: e.Ohm}
}

// borrowed: it is the wire of a circuit that is borrowed from.
func borrowed(e *network.Element) bool {
	return e.Kind == network.Joint && e.Device != nil && e.Device.Is(kinds.Supply, "tap")
}

// lacks is the fact without which an element's resistance isn't known, or nil.
func lacks(e *network.Element) *finding.Need {
	switch {
	case e.Kind == network.Wire && e.Wire.AreaMM2 == 0:
		return &finding.Need{Name: e.Wire.Name, Setting: "gauge"}
	case e.Kind == network.Wire && !e.Wire.HasLength:
		return &finding.Need{Name: e.Wire.Name, Setting: "length"}
	case borrowed(e):
		for _, setting := range []string{"gauge", "run"} {
			if !e.Device.Has(setting) {
				return &finding.Need{Name: e.Device.Name, Setting: setting}
			}
		}
	}
	return nil
}

// temperatures are the coldest and the hottest that a wire's copper is taken.
func temperatures(w *harness.Wire) (leastC, mostC float64) {
	leastC, mostC = math.Inf(1), roomC
	if cable, ok := w.Cable(); ok {
		mostC = cable.TemperatureC
	}
	for _, z := range w.Zones() {
		if z.Known {
			leastC, mostC = min(leastC, z.LeastC), max(mostC, z.MostC)
		}
	}
	if math.IsInf(leastC, 1) {
		leastC = roomC
	}
	return leastC, mostC
}
