package facts

import (
	"hame/check/network"
	"hame/check/trip"
	"hame/lang/harness"
	"hame/lang/tables"
)

// OpeningTimes is a protective device with its opening times, and the family
// that it's made in, at a rating in A that may be another than its own; false
// where its rating, size or family is not known. A link is of no family.
func OpeningTimes(d *network.Device, ratingA float64) (trip.Device, tables.FuseFamily, bool) {
	var family tables.FuseFamily
	switch d.Sort {
	case "link":
	case "breaker":
		family, _ = tables.Breaker(d.Family)
	default:
		family, _ = tables.Fuse(d.Family)
	}
	t, ok := Times(d, ratingA)
	return t, family, ok
}

// Times is OpeningTimes without the family.
func Times(d *network.Device, ratingA float64) (trip.Device, bool) {
	switch d.Sort {
	case "link":
		const roomC = 20
		ambientC := float64(roomC)
		if d.AtPlace != nil && d.AtPlace.Zone != nil && d.AtPlace.Zone.Known {
			ambientC = d.AtPlace.Zone.MostC
		}
		return trip.NewLink(tables.Metric(d.LinkMM2), ambientC)
	case "breaker":
		return trip.NewBreaker(d.Family, ratingA)
	}
	return trip.NewFuse(d.Family, ratingA)
}

// Conductor is a wire as a fault sees it, in the greatest ambient on its way;
// false where its insulation, gauge or ambient is not known.
func (f *Facts) Conductor(w *harness.Wire) (trip.Conductor, bool) {
	cable, ambientC, known := insulated(w)
	if !known {
		return trip.Conductor{}, false
	}
	return trip.ConductorOf(cable, w.Size, ambientC), true
}

// HasConductor reports whether there is a Conductor of a wire.
func (f *Facts) HasConductor(w *harness.Wire) bool {
	_, _, known := insulated(w)
	return known
}

// insulated is a wire's cable and the greatest ambient on its way; false where
// one of them, or its gauge, is not known.
func insulated(w *harness.Wire) (cable tables.CableType, ambientC float64, known bool) {
	cable, named := w.Cable()
	ambientC, known = AmbientC(w)
	return cable, ambientC, named && known && w.AreaMM2 != 0
}
