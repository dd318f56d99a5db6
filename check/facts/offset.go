package facts

import (
	"hame/check/states"
	"hame/lang/harness"
)

// OffsetOf adds up what is lost on the way back from a load's return terminal to
// the negative of the source that most of its current comes from, copper as in
// DropTo: by so many volts the terminal lies above it. False where the load draws
// nothing.
func (f *Facts) OffsetOf(p *states.Point, load int, tempC func(*harness.Wire) float64) (Drop, bool) {
	path, ok := f.Path(load, p)
	d := Drop{Load: load, Source: path.Source}
	for _, s := range path.Back {
		d.add(f, s, tempC)
	}
	return d, ok
}
