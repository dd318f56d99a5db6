package network

import (
	"strings"

	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// wire adds a wire. A capped end, or one that could not be bound, is a node of
// its own.
func (b *builder) wire(w *harness.Wire) {
	var ends [2]int
	ohm := WireOhm(w)
	for i, e := range w.Ends {
		if e.Terminal == nil {
			ends[i] = b.node()
			continue
		}
		ends[i] = node(e.Terminal)
		ohm += landingOhm(e)
	}
	b.add(Element{Kind: Wire, A: ends[0], B: ends[1], Ohm: ohm, Name: w.Name, Wire: w})
}

// unknownLengthM and unknownArea stand in where a wire lacks its length or
// gauge, so that the rest of the network can still be solved; every rule that
// would judge by them is open instead.
const (
	unknownLengthM = 1.0
	unknownAreaMM2 = 2.5
)

// WireOhm is the resistance of a wire's conductor at 20 degC.
func WireOhm(w *harness.Wire) float64 {
	length := w.LengthM
	if !w.HasLength {
		length = unknownLengthM
	}
	size := w.Size
	if w.AreaMM2 == 0 {
		size = tables.Metric(unknownAreaMM2)
	}
	return length * tables.ResistancePerM(size).OhmPerM
}

// landingOhm is the resistance of a crimped end and of its landing. A mated
// contact of a connector is an element of its own.
func landingOhm(e harness.End) float64 {
	ohm := 0.0
	for _, c := range Landing(e) {
		ohm += contactOhm(c)
	}
	return ohm + ChassisShareOhm(e)
}

// Landing lists the contacts that a wire's end has in it, as the table of
// contacts names them; none for an end that lands on nothing. They are the asker's
// to read, not to change.
func Landing(e harness.End) []tables.Contact {
	switch {
	case e.Terminal == nil:
		return nil
	case strings.HasPrefix(e.Hardware, "tab"), strings.HasPrefix(e.Hardware, "bullet"):
		return onTab
	case e.Hardware == "butt":
		return inSplice
	case e.Hardware != "pin" && e.Hardware != "socket":
		return onStud
	}
	return inCavity
}

// The contacts of an end on a tab, in a splice, on a stud, in a connector's cavity.
var (
	onTab    = []tables.Contact{tables.Crimp, tables.Tab}
	inSplice = []tables.Contact{tables.Splice}
	onStud   = []tables.Contact{tables.Crimp, tables.RingOnStud}
	inCavity = []tables.Contact{tables.Crimp}
)

// ChassisShareOhm is what an end that lands on a chassis has of the chassis's
// own resistance: half.
func ChassisShareOhm(e harness.End) float64 {
	if e.Terminal == nil || !e.Terminal.Device.Is(kinds.Ground, "chassis") {
		return 0
	}
	return chassisOhm(e.Terminal.Device) / 2
}
