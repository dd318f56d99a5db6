package facts

import (
	"math"

	"hame/check/states"
)

// steady keeps what flows lastingly where a mode cranks the engine: that current
// is the survey's worst of many elements, and it lasts seconds.
type steady struct{ worst []states.Worst }

func newSteady(f *Facts) *steady {
	for _, m := range f.Harness.Modes {
		if m.Engine == "cranking" {
			return &steady{make([]states.Worst, len(f.Network.Elements))}
		}
	}
	return &steady{}
}

// see takes a position in.
func (s *steady) see(p *states.Point) {
	if brief(p) {
		return
	}
	for i := range s.worst {
		amps := p.Amps(i)
		w, size := &s.worst[i], math.Abs(amps)
		if size <= nothingA {
			continue
		}
		w.AtoB, w.BtoA = max(w.AtoB, amps), max(w.BtoA, -amps)
		if size > w.Amps {
			w.Amps, w.At = size, &p.Position
		}
	}
}

// Steady is an element's greatest lasting current: the survey's, cranking left
// out. A bound stands for every position, and stays.
func (f *Facts) Steady(element int) states.Worst {
	w := f.Survey.Worst[element]
	if w.Bound || w.At == nil || w.At.Engine != "cranking" {
		return w
	}
	return f.steady.worst[element]
}
