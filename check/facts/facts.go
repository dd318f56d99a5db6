// Package facts puts together everything that is worked out of one harness
// before it is judged: the network, what protects what, what flows, and the
// figures that reports print.
package facts

import (
	"math"
	"sync"

	"hame/check/faults"
	"hame/check/figures"
	"hame/check/network"
	"hame/check/practice"
	"hame/check/protect"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/tables"
)

// Facts is everything that was worked out of one harness. Once Work has answered
// any number of goroutines may ask it at once.
type Facts struct {
	Harness  *harness.Harness
	Practice *practice.Practice
	Network  *network.Network
	Protect  *protect.Result
	Faults   *faults.Result
	Survey   *states.Survey
	Figures  *figures.Figures
	wires    map[*harness.Wire]*figures.Wire
	devices  map[*harness.Device][]int // elements
	sources  []int
	shown    map[shownAs]*figures.Position
	asked    []asked // by mode
	sums     *sums
	steady   *steady
	solver   *states.Solver
	solving  sync.Mutex // over solver
	// returning is what Returns asks.
	returning func() []bool
	warmth    map[*harness.Wire]Warmth
	modeC     []map[*harness.Wire]float64 // by mode

	unshorted *unshorted
	meant     func() *Meant
}

// Work works everything out. Observe is asked once, when the network stands
// and nothing is solved yet, and what it answers then sees every position that
// is solved, the modes first; it may be nil.
func Work(h *harness.Harness, observe func(*Facts) func(*states.Point)) *Facts {
	return WorkBy(h, observe, states.Find)
}

// WorkBy is Work where the positions come from a survey other than states.Find.
// Where that answers with none, because it was stopped, the answer is nil.
func WorkBy(h *harness.Harness, observe func(*Facts) func(*states.Point), survey func(*states.Solver, func(*states.Point)) *states.Survey) *Facts {
	f := &Facts{Harness: h, Practice: practice.Of(h), wires: map[*harness.Wire]*figures.Wire{}, shown: map[shownAs]*figures.Position{}}
	f.returning, f.meant = sync.OnceValue(f.leadsBack), sync.OnceValue(f.newMeant)
	f.Network = network.Build(h)
	warmer := f.lay()
	watch := func(*states.Point) {}
	if observe != nil {
		watch = observe(f)
	}
	f.Survey = survey(f.solver, func(p *states.Point) {
		f.unshorted.see(p)
		if !f.Shorted(p) {
			f.sums.see(p)
			f.steady.see(p)
			warmer.see(p)
		}
		watch(p)
	})
	if f.Survey == nil {
		return nil
	}
	f.asked = make([]asked, len(f.Survey.Modes))
	f.unshorted.into(f.Survey)
	f.Figures = &figures.Figures{Coverage: figures.Coverage{
		SwitchPositions: f.Survey.Covered, Method: f.Survey.Method, Shorted: len(f.unshorted.found),
	}}
	for _, w := range h.Wires {
		fw := f.wire(w)
		f.wires[w] = fw
		f.Figures.Wires = append(f.Figures.Wires, fw)
	}
	var heat sync.WaitGroup
	heat.Go(func() {
		f.heatUp(warmer)
		for _, fw := range f.Figures.Wires {
			f.drops(fw)
		}
	})
	for _, d := range h.Devices {
		f.Figures.Devices = append(f.Figures.Devices, f.device(d))
	}
	for i, m := range h.Modes {
		f.Figures.Modes = append(f.Figures.Modes, f.mode(m, f.Survey.Modes[i]))
	}
	heat.Wait()
	return f
}

// lay works out what hangs on the network alone, each beside the others.
func (f *Facts) lay() *warmer {
	var wait sync.WaitGroup
	var w *warmer
	wait.Go(func() { f.Protect = protect.Find(f.Network) })
	wait.Go(func() { f.Faults = faults.Find(f.Network) })
	wait.Go(func() { f.solver = states.NewSolver(f.Network) })
	wait.Go(func() { w = newWarmer(f) })
	f.devices = byDevice(f.Network)
	f.sources = sourcesOf(f.Network)
	f.unshorted = newUnshorted(f)
	f.sums = newSums(f)
	f.steady = newSteady(f)
	wait.Wait()
	return w
}

// Wire is the figures of a wire.
func (f *Facts) Wire(w *harness.Wire) *figures.Wire { return f.wires[w] }

// wire works out one wire's figures.
func (f *Facts) wire(w *harness.Wire) *figures.Wire {
	fw := &figures.Wire{Wire: w, Side: f.Network.Side(w)}
	if w.HasLength && w.AreaMM2 > 0 {
		fw.ResistanceOhm = figures.Amount(network.WireOhm(w))
	}
	if c, ok := AmbientC(w); ok {
		fw.AmbientC = &c
	}
	if r, ok := f.Ampacity(w); ok {
		fw.Ampacity = &r
	}
	cover := f.Protect.Cover(w)
	fw.ProtectedBy = cover.Names()
	fw.UnprotectedM = f.unprotected(w, cover)
	f.flows(w, fw)
	return fw
}

// AmbientC is the greatest ambient along a wire in degC; false where a zone on
// its way does not say, or it runs through none.
func AmbientC(w *harness.Wire) (float64, bool) {
	most, known := math.Inf(-1), false
	for _, z := range w.Zones() {
		if !z.Known {
			return 0, false
		}
		most, known = max(most, z.MostC), true
	}
	return most, known
}

// Ampacity is what a wire may carry lastingly under the practice; false where
// its gauge, insulation or ambient is not known.
func (f *Facts) Ampacity(w *harness.Wire) (tables.Rating, bool) {
	return f.rated(w, f.Practice.Ampacity)
}

// DeviceAmpacity is the ampacity that a wire's protective device is judged
// against.
func (f *Facts) DeviceAmpacity(w *harness.Wire) (tables.Rating, bool) {
	return f.rated(w, f.Practice.DeviceAmpacity)
}

func (f *Facts) rated(w *harness.Wire, by func(area, class, ambient float64) (tables.Rating, bool)) (tables.Rating, bool) {
	cable, insulated := w.Cable()
	ambient, known := AmbientC(w)
	if !insulated || !known || w.AreaMM2 == 0 {
		return tables.Rating{}, false
	}
	r, ok := by(w.AreaMM2, cable.TemperatureC, ambient)
	return f.Bundled(w, r), ok
}

// WithinOutput reports whether a source is an alternator or converter that
// cannot give more than a wire may carry: it needs no device at its own end.
func (f *Facts) WithinOutput(source int, w *harness.Wire) bool {
	s := f.Network.Elements[source].Source
	if s.Sort == "battery" {
		return false
	}
	r, ok := f.Ampacity(w)
	return ok && s.OutputA <= r.Amps
}

// unprotected is the length from the source that no device protects: of a wire
// that a source reaches bare and needs a device for, the distance to its far end.
func (f *Facts) unprotected(w *harness.Wire, c *protect.Cover) *float64 {
	longest := 0.0
	for _, p := range c.Paths {
		if !p.Bare || f.WithinOutput(p.Source, w) {
			continue
		}
		if !p.Known {
			return nil
		}
		longest = max(longest, p.FarM)
	}
	return &longest
}

// flows fills in a wire's currents.
func (f *Facts) flows(w *harness.Wire, fw *figures.Wire) {
	i := f.Network.OfWire(w)
	worst := f.Survey.Worst[i]
	if f.Judged() {
		fw.WorstA = figures.Amount(clean(math.Abs(worst.Amps)))
	}
	if worst.At != nil && *fw.WorstA > 0 {
		fw.Worst = f.position(worst.At, worst.Bound)
	}
	for n, m := range f.Harness.Modes {
		amps := f.Survey.Modes[n].Amps(i)
		fw.Modes = append(fw.Modes, figures.WireMode{Mode: m.Name, CurrentA: figures.Amount(clean(amps))})
	}
}

// drops fills in a wire's drop in every mode, its copper as warm as it is then.
func (f *Facts) drops(fw *figures.Wire) {
	if fw.ResistanceOhm == nil {
		return
	}
	for n := range fw.Modes {
		ohm := tables.CopperAt(*fw.ResistanceOhm, f.ModeC(fw.Wire, n))
		fw.Modes[n].DropV = figures.Amount(clean(math.Abs(*fw.Modes[n].CurrentA) * ohm))
	}
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

// nothingA is a current that is nothing but the solver's last digits.
const nothingA = 1e-6

// clean rounds away what is nothing but the solver's last digits.
func clean(v float64) float64 {
	if math.Abs(v) < nothingA {
		return 0
	}
	return v
}
