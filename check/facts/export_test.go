package facts

// HeatAgain works out the heat of a harness that is solved already, for a
// benchmark of that alone.
func (f *Facts) HeatAgain() {
	w := newWarmer(f)
	for _, p := range f.Survey.Modes {
		for range 10 { // as many positions as a small survey has
			w.see(p)
		}
	}
	f.heatUp(w)
}
