package states_test

import (
	"fmt"
	"testing"

	"hame/check/states"
)

// BenchmarkFind surveys generated machines by their number of switches.
func BenchmarkFind(b *testing.B) {
	for _, hands := range []int{5, 10, 40, 400, 1000} {
		b.Run(fmt.Sprintf("switches=%d", hands), func(b *testing.B) {
			s := solver(b, generate(7, hands, false))
			points := 0
			for b.Loop() {
				points = 0
				states.Find(s, func(*states.Point) { points++ })
			}
			b.ReportMetric(float64(points), "points")
			b.ReportMetric(float64(len(s.Network.Elements)), "elements")
			b.ReportMetric(float64(len(s.Network.Harness.Wires)), "wires")
		})
	}
}
