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
	return f.lost(path, func(e *network.Element, _ int) float64 { return warmedOhm(e, tempC(e.Wire)) }, path.Feed, path.Back), ok
}

// DropIn is DropTo in the n-th mode, the copper as warm as it is there, but no
// warmer than its insulation bears.
func (f *Facts) DropIn(n, load int) (Drop, bool) {
	path, ok := f.Path(load, f.Survey.Modes[n])
	return f.lostIn(n, path, path.Feed, path.Back), ok
}

// OffsetIn adds up what is lost in the n-th mode on the way back from a load's
// return terminal to the negative of the source that most of its current comes
// from, copper as in DropIn: by so many volts the terminal lies above it. False
// where the load draws nothing.
func (f *Facts) OffsetIn(n, load int) (Drop, bool) {
	path, ok := f.Path(load, f.Survey.Modes[n])
	return f.lostIn(n, path, path.Back), ok
}

// BorneC is a temperature of a wire's conductor in degC, or its insulation's
// class where that is less: what is hotter is not judged by its drop.
func (f *Facts) BorneC(w *harness.Wire, tempC float64) float64 {
	if cable, ok := w.Cable(); ok {
		return min(tempC, cable.TemperatureC)
	}
	return tempC
}

func (f *Facts) lostIn(n int, path Way, parts ...[]Step) Drop {
	ohm := f.borneOhm(n)
	return f.lost(path, func(_ *network.Element, i int) float64 { return ohm[i] }, parts...)
}

// lost adds up what is lost on parts of a way, wires having so many ohm.
func (f *Facts) lost(path Way, ohm func(e *network.Element, i int) float64, parts ...[]Step) Drop {
	d := Drop{Load: path.Load, Source: path.Source}
	steps := 0
	for _, part := range parts {
		steps += len(part)
	}
	d.Way = make([]Loss, 0, steps)
	for _, part := range parts {
		for k := range part {
			s := &part[k]
			e := &f.Network.Elements[s.Element]
			volts := math.Abs(s.DropV)
			switch {
			case e.Wire != nil:
				volts = math.Abs(s.Amps) * ohm(e, s.Element)
			case e.Kind == network.Source || e.Kind == network.Load:
				continue // a battery in series lifts, and what another load takes is not lost
			}
			d.Volts += volts
			d.Way = append(d.Way, Loss{s.Element, volts})
		}
	}
	return d
}

// warmedOhm is what a wire has with its copper at a temperature in degC, its
// landings as they are.
func warmedOhm(e *network.Element, tempC float64) float64 {
	copper := network.WireOhm(e.Wire)
	return tables.CopperAt(copper, tempC) + e.Ohm - copper
}
