package readings

import (
	"math"

	"hame/check/network"
	"hame/check/trial"
)

// observation is a reading that the model can be held to.
type observation struct {
	item  int // of the report
	line  trial.Line
	value float64 // as told by see
	sigma float64 // of the meter, in the same
}

// see squeezes a resistance into 0 … 1, so that open is a figure too; everything
// else is itself.
func see(l trial.Line, si float64) float64 {
	if l.Kind != trial.Continuity {
		return si
	}
	if math.IsInf(si, 1) {
		return 1
	}
	return si / (si + 1)
}

// meterSigmas: a tolerance is taken for two standard deviations.
const meterSigmas = 2

// observed lists the readings that the model explains: resistances, volts and
// amperes of the network as it is. What is measured with something unplugged or
// pulled, and what is warm, says by itself what it points to.
func observed(items []Item) []observation {
	var list []observation
	for k, i := range items {
		if i.State != Within && i.State != Drifted || !modelled(i.Line) {
			continue
		}
		sigma := i.Line.Unit.Tolerance(i.SI) / meterSigmas
		if i.Line.Kind == trial.Continuity {
			ohm := min(i.SI, 1e6)
			sigma = i.Line.Unit.Tolerance(ohm)/meterSigmas/((1+ohm)*(1+ohm)) + 1e-3
		}
		list = append(list, observation{k, i.Line, see(i.Line, i.SI), sigma})
	}
	return list
}

func modelled(l trial.Line) bool {
	switch l.Kind {
	case trial.Isolation, trial.Polarity, trial.Pulled, trial.Warm:
		return false
	}
	return l.Expect != nil
}

// change is a hypothesis with a size.
type change struct {
	h    *hypothesis
	size float64
}

// predict is what the observations would be with changes made; false where the
// network has no solution then.
func predict(m *trial.Model, lines []trial.Line, changes []change) ([]float64, bool) {
	v := m.With(func(elements []network.Element) {
		for _, c := range changes {
			if c.h.set != nil {
				c.h.set(elements, c.size)
			}
		}
	})
	scale := 1.0
	for _, c := range changes {
		if c.h.Sort == meterSort {
			scale *= 1 + c.size
		}
	}
	out := make([]float64, len(lines))
	for k, l := range lines {
		value, ok := v.Value(l.Probe)
		if !ok {
			return nil, false
		}
		if l.Unit.Name == trial.Volts.Name || l.Unit.Name == trial.Millivolts.Name {
			value *= scale
		}
		out[k] = see(l, value)
	}
	return out, true
}
