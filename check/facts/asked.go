package facts

import (
	"slices"
	"sync"
	"sync/atomic"
)

// asked is what rules ask of a declared mode's position again and again, kept
// once it was worked out.
type asked struct {
	crowds
	begin sync.Once
	ways  []atomic.Pointer[keptWay] // by element
	warm  sync.Once
	ohm   []float64 // by element: see borneOhm
}

type keptWay struct {
	way   Way
	found bool
}

// wayOf is the way that an element lies on. Two rules that ask at once may both
// work one out; they come to the same.
func (a *asked) wayOf(element int, w walker) (Way, bool) {
	a.begin.Do(func() { a.ways = make([]atomic.Pointer[keptWay], len(w.f.Network.Elements)) })
	kept := a.ways[element].Load()
	if kept == nil {
		kept = &keptWay{}
		kept.way, kept.found = w.path(element)
		kept.way.Feed, kept.way.Back = slices.Clip(kept.way.Feed), slices.Clip(kept.way.Back)
		a.ways[element].Store(kept)
	}
	return kept.way, kept.found
}

// borneOhm is what each wire has in the n-th mode, its copper as warm as it is
// there, but no warmer than its insulation bears.
func (f *Facts) borneOhm(n int) []float64 {
	a := &f.asked[n]
	a.warm.Do(func() {
		a.ohm = make([]float64, len(f.Network.Elements))
		for i := range f.Network.Elements {
			if e := &f.Network.Elements[i]; e.Wire != nil {
				a.ohm[i] = warmedOhm(e, f.BorneC(e.Wire, f.ModeC(e.Wire, n)))
			}
		}
	})
	return a.ohm
}
