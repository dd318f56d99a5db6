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

// resistance is an element's in ohm, cold and hot, and the fact that it lacks.
func resistance(e *network.Element) (cold, hot float64, lacks *finding.Need) {
	switch {
	case e.Kind == network.Diode:
		return 0, diodeOhm, nil
	case e.Kind == network.Wire:
		return wire(e)
	case e.Kind == network.Joint && e.Device != nil && e.Device.Is(kinds.Supply, "tap"):
		return run(e)
	}
	return e.Ohm, e.Ohm, nil
}

func wire(e *network.Element) (cold, hot float64, lacks *finding.Need) {
	w := e.Wire
	leastC, mostC := temperatures(w)
	hot = tables.CopperAt(e.Ohm, mostC)
	switch {
	case w.AreaMM2 == 0:
		return 0, hot, &finding.Need{Name: w.Name, Setting: "gauge"}
	case !w.HasLength:
		return 0, hot, &finding.Need{Name: w.Name, Setting: "length"}
	}
	return tables.CopperAt(e.Ohm, leastC), hot, nil
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
func run(e *network.Element) (cold, hot float64, lacks *finding.Need) {
	const classC = 90 // the common one of machine wiring (common practice, no source)
	hot = tables.CopperAt(e.Ohm, classC)
	for _, setting := range []string{"gauge", "run"} {
		if !e.Device.Has(setting) {
			return 0, hot, &finding.Need{Name: e.Device.Name, Setting: setting}
		}
	}
	return e.Ohm, hot, nil
}
