package facts

import (
	"math"
	"slices"

	"hame/check/figures"
	"hame/check/heat"
	"hame/check/states"
	"hame/lang/beside"
	"hame/lang/harness"
)

// heated is a wire's worst warmth, as far as it is known.
type heated struct {
	Warmth
	known bool
}

// keep takes in what is hotter.
func (h *heated) keep(w Warmth) {
	if !h.known || w.TempC > h.TempC {
		*h = heated{w, true}
	}
}

// Warmth is how hot a wire gets at worst; false where an ambient, gauge or
// insulation that it hangs on is not known.
func (f *Facts) Warmth(w *harness.Wire) (Warmth, bool) {
	found := &f.warmth[w.Index]
	return found.Warmth, found.known
}

// WorstC is the greatest temperature of a wire's conductor in degC, with what
// stands in for it as in ModeC.
func (f *Facts) WorstC(w *harness.Wire) float64 {
	if found := &f.warmth[w.Index]; found.known {
		return found.TempC
	}
	return warm(f.Wire(w), &harness.Mode{})
}

// ModeC is the temperature of a wire's conductor in the n-th mode in degC; its
// ambient while the engine cranks and where it can't be worked out, a room's
// where that is not known.
func (f *Facts) ModeC(w *harness.Wire, n int) float64 {
	if c := f.modeC[n][w.Index]; !math.IsNaN(c) {
		return c
	}
	return warm(f.Wire(w), f.Harness.Modes[n])
}

// warm is the temperature of a wire whose heat isn't known: the mode's
// ambient, else the greatest on its way, else a room's.
func warm(fw *figures.Wire, m *harness.Mode) float64 {
	const roomC = 20
	switch {
	case m.AmbientC != nil:
		return *m.AmbientC
	case fw.AmbientC != nil:
		return *fw.AmbientC
	}
	return roomC
}

// heatUp works out every wire's temperature, at worst and in each mode, and its drops
// with it. Beside the bundles it does other tasks, whose figures the wires' hang on.
func (f *Facts) heatUp(w *warmer, tasks ...func()) {
	const fewBundles, fewWires = 8, 64
	beside.Do(slices.Concat(beside.Split(len(w.bundles), fewBundles, w.solveBundles), tasks)...)
	f.gather(w)
	beside.Do(beside.Split(len(f.Harness.Wires), fewWires, func(from, to int) { f.finish(w, from, to) })...)
}

// solveBundles works out some bundles.
func (w *warmer) solveBundles(from, to int) {
	for k := from; k < to; k++ {
		if b := &w.bundles[k]; b.known {
			w.solveBundle(b)
		}
	}
}

// solveBundle works out how hot a bundle's wires get where they are hottest, and in
// each mode.
func (w *warmer) solveBundle(b *warmBundle) {
	members, modes := len(b.elements), w.f.Survey.Modes
	b.worst, b.modeC = make([]heated, members), make([]float64, len(modes)*members)
	temps := make([]float64, members)
	for _, p := range w.positions(b) {
		w.take(b, p, temps)
	}
	for n, p := range modes {
		if !brief(p) {
			b.solve(p, stated(w.f.Harness.Modes[n].AmbientC, b.ambientC), b.modeC[n*members:(n+1)*members])
		}
	}
}

// positions lists those that a bundle is solved in, each once.
func (w *warmer) positions(b *warmBundle) []*states.Point {
	list := []*states.Point{b.hottest}
	for _, i := range b.elements {
		if p := w.most[i-w.first].at; p != nil && !slices.Contains(list, p) {
			list = append(list, p)
		}
	}
	return list
}

// take solves a bundle in a position and keeps what is hotter than before. A
// wire whose bound lies above what it carries at its own worst is solved again
// with it. temps is memory to work in.
func (w *warmer) take(b *warmBundle, p *states.Point, temps []float64) {
	b.solve(p, b.ambientC, temps)
	for k := range b.elements {
		b.worst[k].keep(Warmth{TempC: temps[k], AmbientC: b.ambientC, Amps: math.Abs(b.model.Amps[k]), Bundle: b.bundle, At: p})
	}
	for k, i := range b.elements {
		bound := w.boundOf(i - w.first)
		if bound == 0 || w.most[i-w.first].at != p {
			continue
		}
		real := b.model.Amps[k]
		b.model.Amps[k] = bound
		b.model.SolveInto(temps, b.ambientC)
		b.model.Amps[k] = real
		b.worst[k].keep(Warmth{finite(temps[k]), b.ambientC, bound, b.bundle, p, true})
	}
}

// boundOf is the bound of a wire's current where it is above what was seen; 0
// where it is not.
func (w *warmer) boundOf(wire int) float64 {
	const same = 1.001
	if worst := &w.f.Survey.Worst[w.first+wire]; worst.Bound && worst.Amps > w.most[wire].amps*same {
		return worst.Amps
	}
	return 0
}

// solve writes down the members' temperatures in a position.
func (b *warmBundle) solve(p *states.Point, ambientC float64, temps []float64) {
	for k, i := range b.elements {
		b.model.Amps[k] = 0
		if p != nil {
			b.model.Amps[k] = p.Amps(i)
		}
	}
	b.model.SolveInto(temps, ambientC)
	for k, c := range temps {
		temps[k] = finite(c)
	}
}

// finite takes what has no balance for the melting point, so that reports have
// a number.
func finite(tempC float64) float64 { return min(tempC, heat.MeltingC) }

func stated(mode *float64, zone float64) float64 {
	if mode != nil {
		return *mode
	}
	return zone
}

// gather gives every wire the greatest temperature of its bundles.
func (f *Facts) gather(w *warmer) {
	f.warmth, f.modeC = make([]heated, len(w.loose)), make([][]float64, len(f.Survey.Modes))
	for n := range f.modeC {
		f.modeC[n] = slices.Repeat([]float64{math.NaN()}, len(w.loose))
	}
	for k := range w.bundles {
		b := &w.bundles[k]
		for m, i := range b.elements {
			wire := i - w.first
			if !b.known {
				w.loose[wire].lost = true
				continue
			}
			f.warmth[wire].keep(b.worst[m].Warmth)
			for n, p := range f.Survey.Modes {
				if c, most := b.modeC[n*len(b.elements)+m], &f.modeC[n][wire]; !brief(p) && !(c <= *most) {
					*most = c
				}
			}
		}
	}
}
