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
	"hame/lang/beside"
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
	links    []link        // by element
	gates    []gate        // of the contacts
	told     []wireFigures // by wire
	spoken   [][]int       // by device: the elements by which it is spoken of
	sources  []int
	shown    shown
	asked    []asked // by mode
	sums     *sums
	steady   *steady
	solver   *states.Solver
	solving  sync.Mutex // over solver
	spare    spare
	// returning is what Returns asks.
	returning func() []bool
	warmth    []heated    // by wire
	modeC     [][]float64 // by mode and wire; NaN where it isn't known

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
	f := &Facts{Harness: h, Practice: practice.Of(h)}
	f.shown.made = map[shownAs]func() *figures.Position{}
	f.returning, f.meant = sync.OnceValue(f.leadsBack), sync.OnceValue(f.newMeant)
	f.Network = network.Build(h)
	f.link()
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
	f.figure(warmer)
	return f
}

// lay works out what hangs on the network alone, each beside the others.
func (f *Facts) lay() *warmer {
	var w *warmer
	beside.Do(
		func() { f.Faults = faults.Find(f.Network) },
		func() { f.solver = states.NewSolver(f.Network) },
		func() {
			f.sources = sourcesOf(f.Network)
			f.unshorted = newUnshorted(f)
		},
		func() { w = newWarmer(f) },
		func() { f.Protect = protect.Find(f.Network) },
		func() {
			f.spoken = f.bySpeaking()
			f.sums = newSums(f)
			f.steady = newSteady(f)
		},
	)
	return w
}

// figure works out the figures: those of every wire and device hang on it alone, but
// for the heat of a bundle.
func (f *Facts) figure(w *warmer) {
	const few = 64
	h := f.Harness
	f.told = make([]wireFigures, len(h.Wires))
	f.Figures.Wires, f.Figures.Devices = make([]*figures.Wire, len(h.Wires)), make([]*figures.Device, len(h.Devices))
	tasks := append(beside.Split(len(h.Wires), few, f.toWires), beside.Split(len(h.Devices), few, f.toDevices)...)
	f.heatUp(w, append(tasks, func() {
		for i, m := range h.Modes {
			f.Figures.Modes = append(f.Figures.Modes, f.mode(m, f.Survey.Modes[i]))
		}
	})...)
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

// nothingA is a current that is nothing but the solver's last digits.
const nothingA = 1e-6

// clean rounds away what is nothing but the solver's last digits.
func clean(v float64) float64 {
	if math.Abs(v) < nothingA {
		return 0
	}
	return v
}
