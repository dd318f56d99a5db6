package facts

import (
	"math"

	"hame/check/heat"
)

// finish works out what some wires do outside bundles, at the places of their ends,
// and then all that hangs on how hot they get.
func (f *Facts) finish(w *warmer, from, to int) {
	model := heat.Bundle{Wires: make([]heat.Wire, 1), Amps: make([]float64, 1)}
	for k := from; k < to; k++ {
		w.byItself(k, &f.warmth[k], model)
		w.inModes(k, model)
		t := &f.told[k]
		if found := &f.warmth[k]; found.known {
			t.temperatureC = found.TempC
			t.TemperatureC = &t.temperatureC
		}
		f.drops(k)
	}
}

// byItself adds to the worst of a wire what it does outside bundles.
func (w *warmer) byItself(k int, found *heated, model heat.Bundle) {
	l, most := &w.loose[k], &w.most[k]
	switch {
	case l.lost, l.placed && !l.known:
		*found = heated{}
	case l.placed: // otherwise its bundles alone
		bound := w.boundOf(k)
		amps := max(most.amps, bound)
		found.keep(Warmth{l.solve(amps, l.ambientC, model), l.ambientC, amps, nil, most.at, bound > 0})
	}
}

// inModes works out a wire that runs through no bundle in each mode.
func (w *warmer) inModes(k int, model heat.Bundle) {
	l, wire := &w.loose[k], w.f.Harness.Wires[k]
	if !l.known || len(wire.Route) > 0 {
		return
	}
	for n, p := range w.f.Survey.Modes {
		if !brief(p) {
			w.f.modeC[n][k] = l.solve(p.Amps(w.first+k), stated(w.f.Harness.Modes[n].AmbientC, l.ambientC), model)
		}
	}
}

// solve is the wire's temperature by itself. The model is memory to work in, for a
// bundle of one.
func (l *looseWire) solve(amps, ambientC float64, model heat.Bundle) float64 {
	const nothing = 1e-6
	if math.Abs(amps) < nothing {
		return ambientC
	}
	var temp [1]float64
	model.Wires[0], model.Amps[0], model.DiameterMM = l.cable, amps, l.cable.OutsideDiameterMM
	model.BoreMM, model.CoverDiameterMM = l.boreMM, l.coverMM
	model.SolveInto(temp[:], ambientC)
	return finite(temp[0])
}
