package sizing

import (
	"hame/check/facts"
	"hame/lang/harness"
)

// guess is the step to begin with: the thinnest that carries what the wire
// carries while nothing is lost in the others, and that its device is not too
// big for. It only saves work; the check has the last word both ways.
func (d *desk) guess(t *target) int {
	w := d.top.wireOf(t)
	f := d.top.run.Facts
	cable, insulated := w.Cable()
	fw := f.Wire(w)
	if !insulated || fw.AmbientC == nil || fw.WorstA == nil {
		return t.least
	}
	device := largest(f, w)
	for step := t.least; step < t.most; step++ {
		area := d.sizes[step].AreaMM2()
		r, ok := f.Practice.Ampacity(area, cable.TemperatureC, *fw.AmbientC)
		guard, okToo := f.Practice.DeviceAmpacity(area, cable.TemperatureC, *fw.AmbientC)
		if ok && okToo && f.Bundled(w, r).Amps >= *fw.WorstA && f.Bundled(w, guard).Amps >= device {
			return step
		}
	}
	return t.least
}

// largest is the rating in A of the largest device that answers for a wire.
func largest(f *facts.Facts, w *harness.Wire) float64 {
	most := 0.0
	for _, p := range f.Protect.Cover(w).Paths {
		if d := facts.Answering(p); d != nil {
			most = max(most, d.RatingA)
		}
	}
	return most
}
