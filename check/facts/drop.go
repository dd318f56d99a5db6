package facts

import (
	"math"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/tables"
)

// Drop is where volts are lost between a source, a load, and back, in one
// position.
type Drop struct {
	Load   int     // its element
	Source int     // the element that most of its current comes from
	Volts  float64 // the sum of the losses
	Way    []Loss  // from the source to the load, then back
}

// Loss is what one element on the way loses, in V.
type Loss struct {
	Element int
	Volts   float64
}

// DropTo adds up what is lost on a load's Path, the copper of wires as warm as
// tempC has it in degC: the network is solved at the ambient, and a wire's own
// heat comes on top. False where the load draws nothing.
func (f *Facts) DropTo(p *states.Point, load int, tempC func(*harness.Wire) float64) (Drop, bool) {
	path, ok := f.Path(load, p)
	d := Drop{Load: load, Source: path.Source}
	for _, half := range [][]Step{path.Feed, path.Back} {
		for _, s := range half {
			d.add(f, s, tempC)
		}
	}
	return d, ok
}

func (d *Drop) add(f *Facts, s Step, tempC func(*harness.Wire) float64) {
	e := &f.Network.Elements[s.Element]
	volts := math.Abs(s.DropV)
	switch {
	case e.Wire != nil:
		copper := network.WireOhm(e.Wire)
		volts = math.Abs(s.Amps) * (tables.CopperAt(copper, tempC(e.Wire)) + e.Ohm - copper)
	case e.Kind == network.Source || e.Kind == network.Load:
		return // a battery in series lifts, and what another load takes is not lost
	}
	d.Volts += volts
	d.Way = append(d.Way, Loss{s.Element, volts})
}
