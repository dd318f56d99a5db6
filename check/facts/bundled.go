package facts

import (
	"fmt"

	"hame/lang/harness"
	"hame/lang/tables"
)

// Bundled lowers a wire's ampacity by the number of conductors that it runs
// with, where the practice does so: 33 CFR 183.425 note 2, at 50 V and above.
func (f *Facts) Bundled(w *harness.Wire, r tables.Rating) tables.Rating {
	if f.Practice.Name != "cfr183" {
		return r
	}
	conductors := 1
	for _, b := range w.Route {
		conductors = max(conductors, len(b.Members))
	}
	factor, source := tables.CFRBundleFactor(conductors, f.Harness.SystemV)
	if factor == 1 {
		return r
	}
	r.Factor *= factor
	r.Amps *= factor
	r.Note = fmt.Sprintf("of it x %g for %d conductors that run together (%s)", factor, conductors, source)
	return r
}
