package facts

import (
	"math"

	"hame/check/figures"
	"hame/check/heat"
	"hame/check/states"
	"hame/lang/harness"
)

// Warmth is how hot a wire gets at worst; false where an ambient, gauge or
// insulation that it hangs on is not known.
func (f *Facts) Warmth(w *harness.Wire) (Warmth, bool) {
	found, ok := f.warmth[w]
	return found, ok
}

// ModeC is the temperature of a wire's conductor in the n-th mode in degC; its
// ambient while the engine cranks and where it can't be worked out, a room's
// where that is not known.
func (f *Facts) ModeC(w *harness.Wire, n int) float64 {
	if c, ok := f.modeC[n][w]; ok {
		return c
	}
	return warm(f.wires[w], f.Harness.Modes[n])
}

// heatUp works out every wire's temperature, at worst and in each mode.
func (f *Facts) heatUp(w *warmer) {
	f.warmth = w.worst()
	f.modeC = make([]map[*harness.Wire]float64, len(f.Survey.Modes))
	for n, point := range f.Survey.Modes {
		if !brief(point) {
			f.modeC[n] = w.at(point, f.Harness.Modes[n].AmbientC)
		}
	}
	for _, fw := range f.Figures.Wires {
		if found, ok := f.warmth[fw.Wire]; ok {
			fw.TemperatureC = figures.Amount(found.TempC)
		}
	}
}

// worst is every wire where it's hottest.
func (w *warmer) worst() map[*harness.Wire]Warmth {
	found := map[*harness.Wire]Warmth{}
	unknown := map[*harness.Wire]bool{}
	worstOf := map[*harness.Wire]*looseWire{}
	for k := range w.loose {
		worstOf[w.loose[k].wire] = &w.loose[k]
	}
	for _, b := range w.bundles {
		if !b.known {
			for _, m := range b.bundle.Members {
				unknown[m] = true
			}
			continue
		}
		for _, p := range b.positions(worstOf) {
			w.take(found, b, p, worstOf)
		}
	}
	w.byThemselves(found, unknown)
	for m := range unknown {
		delete(found, m)
	}
	return found
}

// positions lists those that a bundle is solved in, each once.
func (b *warmBundle) positions(worstOf map[*harness.Wire]*looseWire) []*states.Point {
	list := []*states.Point{b.hottest}
	seen := map[*states.Point]bool{b.hottest: true}
	for _, m := range b.bundle.Members {
		if p := worstOf[m].worst; p != nil && !seen[p] {
			seen[p] = true
			list = append(list, p)
		}
	}
	return list
}

// take solves a bundle in a position and keeps what is hotter than before. A
// wire whose bound lies above what it carries at its own worst is solved again
// with it.
func (w *warmer) take(found map[*harness.Wire]Warmth, b *warmBundle, p *states.Point, worstOf map[*harness.Wire]*looseWire) {
	temps := b.solve(p, b.ambientC)
	for k, m := range b.bundle.Members {
		here := Warmth{TempC: temps[k], AmbientC: b.ambientC, Amps: math.Abs(b.model.Amps[k]), Bundle: b.bundle, At: p}
		keep(found, m, here)
	}
	for k, m := range b.bundle.Members {
		bound := w.boundOf(worstOf[m])
		if bound == 0 || worstOf[m].worst != p {
			continue
		}
		real := b.model.Amps[k]
		b.model.Amps[k] = bound
		temps, _ := b.model.Solve(b.ambientC)
		b.model.Amps[k] = real
		keep(found, m, Warmth{finite(temps[k]), b.ambientC, bound, b.bundle, p, true})
	}
}

// boundOf is the bound of a wire's current where it is above what was seen; 0
// where it is not.
func (w *warmer) boundOf(l *looseWire) float64 {
	const same = 1.001
	if worst := w.f.Survey.Worst[l.element]; worst.Bound && worst.Amps > l.amps*same {
		return worst.Amps
	}
	return 0
}

// byThemselves adds what every wire does outside bundles: at the places of its
// ends.
func (w *warmer) byThemselves(found map[*harness.Wire]Warmth, unknown map[*harness.Wire]bool) {
	for k := range w.loose {
		l := &w.loose[k]
		switch {
		case !l.placed: // its bundles alone
		case !l.known:
			unknown[l.wire] = true
		default:
			amps, bound := l.amps, w.boundOf(l)
			amps = max(amps, bound)
			keep(found, l.wire, Warmth{l.solve(amps, l.ambientC), l.ambientC, amps, nil, l.worst, bound > 0})
		}
	}
}

func keep(found map[*harness.Wire]Warmth, m *harness.Wire, w Warmth) {
	if old, ok := found[m]; !ok || w.TempC > old.TempC {
		found[m] = w
	}
}

// at is every wire's temperature in one position, as far as it is known: the
// greatest of its bundles or, outside them, by itself.
func (w *warmer) at(p *states.Point, ambientC *float64) map[*harness.Wire]float64 {
	temps := map[*harness.Wire]float64{}
	for _, b := range w.bundles {
		if !b.known {
			continue
		}
		for k, c := range b.solve(p, stated(ambientC, b.ambientC)) {
			m := b.bundle.Members[k]
			if old, ok := temps[m]; !ok || c > old {
				temps[m] = c
			}
		}
	}
	for k := range w.loose {
		l := &w.loose[k]
		if l.known && len(l.wire.Route) == 0 {
			temps[l.wire] = l.solve(p.Amps(l.element), stated(ambientC, l.ambientC))
		}
	}
	return temps
}

func stated(mode *float64, zone float64) float64 {
	if mode != nil {
		return *mode
	}
	return zone
}

// solve is the members' temperatures in a position.
func (b *warmBundle) solve(p *states.Point, ambientC float64) []float64 {
	for k, i := range b.elements {
		b.model.Amps[k] = 0
		if p != nil {
			b.model.Amps[k] = p.Amps(i)
		}
	}
	temps, _ := b.model.Solve(ambientC)
	for k, c := range temps {
		temps[k] = finite(c)
	}
	return temps
}

// solve is the wire's temperature by itself.
func (l *looseWire) solve(amps, ambientC float64) float64 {
	const nothing = 1e-6
	if math.Abs(amps) < nothing {
		return ambientC
	}
	l.model.Amps[0] = amps
	temps, _ := l.model.Solve(ambientC)
	return finite(temps[0])
}

// finite takes what has no balance for the melting point, so that reports have
// a number.
func finite(tempC float64) float64 { return min(tempC, heat.MeltingC) }

// WorstC is the greatest temperature of a wire's conductor in degC, with what
// stands in for it as in ModeC.
func (f *Facts) WorstC(w *harness.Wire) float64 {
	if found, ok := f.warmth[w]; ok {
		return found.TempC
	}
	return warm(f.wires[w], &harness.Mode{})
}
