package harness

import (
	"slices"

	"hame/lang/slab"
	"hame/lang/tables"
)

// zoneWires tells wires their zones. Most wires have the same ones as the wire
// before, and those share a list.
func (b *binder) zoneWires() {
	var list, last []*Zone
	for _, w := range b.h.Wires {
		list = w.through(list)
		if !slices.Equal(list, last) {
			last = slices.Clone(list)
		}
		w.zones = slices.Clip(last)
	}
}

// gather tells the bundles which wires run through them.
func (b *binder) gather() {
	count, all := make(map[*Bundle]int, len(b.h.Bundles)), 0
	for _, w := range b.h.Wires {
		for _, bundle := range w.Route {
			count[bundle]++
			all++
		}
	}
	room := slab.For[*Wire](all)
	for _, bundle := range b.h.Bundles {
		bundle.Members = room.Take(count[bundle])[:0]
	}
	for _, w := range b.h.Wires {
		for _, bundle := range w.Route {
			bundle.Members = append(bundle.Members, w)
		}
	}
}

// diameterMM is the diameter of wires that run together, in mm: outside
// diameters by cable and gauge, packed as the tables say. Wires of unknown
// gauge or insulation are left out.
func diameterMM(wires []*Wire) float64 {
	ods := make([]float64, 0, len(wires))
	for _, w := range wires {
		if od, ok := w.OutsideDiameterMM(); ok {
			ods = append(ods, od)
		}
	}
	if len(ods) == 0 {
		return 0
	}
	d, _ := tables.BundleDiameterMM(ods)
	return d
}

// OutsideDiameterMM is the wire's diameter over its insulation in mm; false
// where its gauge or insulation is not known.
func (w *Wire) OutsideDiameterMM() (float64, bool) {
	if w.cable == nil || w.AreaMM2 == 0 {
		return 0, false
	}
	return tables.OutsideDiameterMM(*w.cable, w.Size).MM, true
}

// Cable is the wire's cable designation; false where none is said.
func (w *Wire) Cable() (tables.CableType, bool) {
	if w.cable == nil {
		return tables.CableType{}, false
	}
	return *w.cable, true
}

// cables are the designations by name, so that wires of one name share theirs.
var cables = cablesByName()

func cablesByName() map[string]*tables.CableType {
	by := map[string]*tables.CableType{}
	for _, name := range tables.CableNames() {
		if c, ok := tables.Cable(name); ok {
			by[name] = &c
		}
	}
	return by
}
