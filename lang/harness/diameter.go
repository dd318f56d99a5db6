package harness

import "hame/lang/tables"

// diameterMM is the diameter of wires that run together, in mm: outside
// diameters by cable and gauge, packed as the tables say. Wires of unknown
// gauge or insulation are left out.
func diameterMM(wires []*Wire) float64 {
	var ods []float64
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
	cable, ok := tables.Cable(w.Insulation)
	if !ok || w.AreaMM2 == 0 {
		return 0, false
	}
	return tables.OutsideDiameterMM(cable, w.Size).MM, true
}

// Cable is the wire's cable designation; false where none is said.
func (w *Wire) Cable() (tables.CableType, bool) { return tables.Cable(w.Insulation) }
