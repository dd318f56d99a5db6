package facts

import (
	"math"

	"hame/check/figures"
	"hame/check/network"
	"hame/check/protect"
	"hame/lang/harness"
	"hame/lang/tables"
)

// wireFigures is a wire's figures with what they point to.
type wireFigures struct {
	figures.Wire
	ampacity                                                    tables.Rating
	resistanceOhm, ambientC, temperatureC, worstA, unprotectedM float64
	inModes                                                     []wireInMode
}

// wireInMode is what the figures of a wire in one mode point to.
type wireInMode struct{ currentA, dropV float64 }

// Wire is the figures of a wire.
func (f *Facts) Wire(w *harness.Wire) *figures.Wire { return &f.told[w.Index].Wire }

// toWires works out the figures of some wires, but for those that hang on how hot
// they get.
func (f *Facts) toWires(from, to int) {
	modes := len(f.Harness.Modes)
	lists, inModes := make([]figures.WireMode, (to-from)*modes), make([]wireInMode, (to-from)*modes)
	for k := from; k < to; k++ {
		t := &f.told[k]
		t.Wire.Wire = f.Harness.Wires[k]
		t.Modes, lists = lists[:modes:modes], lists[modes:]
		t.inModes, inModes = inModes[:modes:modes], inModes[modes:]
		f.wire(t)
		f.flows(t)
		f.Figures.Wires[k] = &t.Wire
	}
}

// wire works out what hangs on no current.
func (f *Facts) wire(t *wireFigures) {
	w, known := t.Wire.Wire, false
	t.Side = f.Network.Side(w)
	if w.HasLength && w.AreaMM2 > 0 {
		t.resistanceOhm = network.WireOhm(w)
		t.ResistanceOhm = &t.resistanceOhm
	}
	if t.ambientC, known = AmbientC(w); known {
		t.AmbientC = &t.ambientC
	}
	if t.ampacity, known = f.Ampacity(w); known {
		t.Ampacity = &t.ampacity
	}
	cover := f.Protect.Cover(w)
	t.ProtectedBy = cover.Names()
	if t.unprotectedM, known = f.unprotected(w, cover); known {
		t.UnprotectedM = &t.unprotectedM
	}
}

// unprotected is the length from the source that no device protects: of a wire
// that a source reaches bare and needs a device for, the distance to its far end.
// False where a length is not known.
func (f *Facts) unprotected(w *harness.Wire, c *protect.Cover) (lengthM float64, known bool) {
	for k := range c.Paths {
		p := &c.Paths[k]
		if !p.Bare || f.WithinOutput(p.Source, w) {
			continue
		}
		if !p.Known {
			return 0, false
		}
		lengthM = max(lengthM, p.FarM)
	}
	return lengthM, true
}

// flows fills in a wire's currents.
func (f *Facts) flows(t *wireFigures) {
	i := f.Network.OfWire(t.Wire.Wire)
	worst := &f.Survey.Worst[i]
	if f.Judged() {
		t.worstA = clean(math.Abs(worst.Amps))
		t.WorstA = &t.worstA
	}
	if worst.At != nil && t.worstA > 0 {
		t.Worst = f.position(worst.At, worst.Bound)
	}
	for n, m := range f.Harness.Modes {
		t.inModes[n].currentA = clean(f.Survey.Modes[n].Amps(i))
		t.Modes[n] = figures.WireMode{Mode: m.Name, CurrentA: &t.inModes[n].currentA}
	}
}

// drops fills in a wire's drop in every mode, its copper as warm as it is then.
func (f *Facts) drops(wire int) {
	t := &f.told[wire]
	if t.ResistanceOhm == nil {
		return
	}
	for n := range t.Modes {
		m := &t.inModes[n]
		m.dropV = clean(math.Abs(m.currentA) * tables.CopperAt(t.resistanceOhm, f.ModeC(t.Wire.Wire, n)))
		t.Modes[n].DropV = &m.dropV
	}
}
