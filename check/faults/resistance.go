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
type ohms struct{ cold, hot float64 }

// resistances are those of all elements.
func resistances(n *network.Network) []ohms {
	list := make([]ohms, len(n.Elements))
	for i := range list {
		list[i] = resistance(&n.Elements[i])
	}
	return list
}

// resistance is an element's own. Of a wire or run of which lacks says something
// the cold one is 0.
func resistance(e *network.Element) ohms {
	switch {
	case e.Kind == network.Diode:
		return ohms{hot: diodeOhm}
	case e.Kind == network.Wire:
		return wire(e)
	case borrowed(e):
		return run(e)
	}
	return ohms{e.Ohm, e.Ohm}
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

func wire(e *network.Element) ohms {
	leastC, mostC := temperatures(e.Wire)
	r := ohms{hot: tables.CopperAt(e.Ohm, mostC)}
	if lacks(e) == nil {
		r.cold = tables.CopperAt(e.Ohm, leastC)
	}
	return r
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

// run is a borrowed circuit's own wire, of which the class is not known.
func run(e *network.Element) ohms {
	const classC = 90 // the common one of machine wiring (common practice, no source)
	r := ohms{hot: tables.CopperAt(e.Ohm, classC)}
	if lacks(e) == nil {
		r.cold = e.Ohm
	}
	return r
}
