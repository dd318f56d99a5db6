package tables

import (
	"math"
	"slices"
)

// mixedBundleFactor is the trade's D = 1.2 sqrt(sum d2) for unlike wires.
const mixedBundleFactor = 1.2

var packing = mustLoad("circle-packing.csv", func(r *row) keyed {
	return keyed{r.num("n"), r.num("ratio"), r.source()}
})

var mixedBundle = Source{Document: practice, Clause: "D = 1.2 sqrt(sum d2) of a mixed bundle", Mark: CommonPractice}

// BundleDiameterMM gives the diameter in mm of the circle round wires of the
// outside diameters given in mm. Up to 20 equal wires take the exact ratio;
// others 1.2 sqrt(sum d2), and never less than the two thickest side by side.
// Diameters that aren't above zero don't count.
func BundleDiameterMM(ods []float64) (float64, Source) {
	wires := slices.DeleteFunc(slices.Clone(ods), func(d float64) bool { return !(d > 0) })
	if len(wires) == 0 {
		return 0, packing[0].source
	}
	slices.Sort(wires)
	n := len(wires)
	if wires[n-1]-wires[0] < 1e-9 {
		for _, p := range packing {
			if int(p.key) == n {
				return p.factor * wires[0], p.source
			}
		}
	}
	squares := 0.0
	for _, d := range wires {
		squares += d * d
	}
	return max(mixedBundleFactor*math.Sqrt(squares), twoThickest(wires)), mixedBundle
}

// twoThickest adds the two largest of a sorted list.
func twoThickest(sorted []float64) float64 {
	if len(sorted) == 1 {
		return sorted[0]
	}
	return sorted[len(sorted)-1] + sorted[len(sorted)-2]
}
