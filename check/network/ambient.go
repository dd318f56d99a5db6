package network

import (
	"math"

	"hame/lang/harness"
)

// Ambients are the least and the greatest ambient along an element in degC;
// false where no zone on its way says.
func (e *Element) Ambients() (leastC, mostC float64, known bool) {
	var zones []*harness.Zone
	switch {
	case e.Wire != nil:
		zones = e.Wire.Zones()
	case e.Device != nil && e.Device.At != nil && e.Device.At.Zone != nil:
		zones = []*harness.Zone{e.Device.At.Zone}
	}
	leastC, mostC = math.Inf(1), math.Inf(-1)
	for _, z := range zones {
		if z.Known {
			leastC, mostC, known = min(leastC, z.LeastC), max(mostC, z.MostC), true
		}
	}
	return leastC, mostC, known
}
