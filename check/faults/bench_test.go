package faults_test

import (
	"fmt"
	"strings"
	"testing"

	"hame/check/faults"
)

// long is a harness of a number of lamps on splices: half of its wires feed, half
// return, in chains of twenty.
func long(lamps int) string {
	var b strings.Builder
	b.WriteString("harness long { system 12 V }\nsupply battery main { capacity 70 Ah; cranking 500 A }\n")
	for i := range lamps {
		fmt.Fprintf(&b, "load led l%d { draws 5 W }\njoin splice s%d\n", i, i)
		if i%20 == 0 {
			fmt.Fprintf(&b, "protection fuse f%d { rating 10 A }\nwire a%d main.pos -> f%d.in 4 mm2 1 m\nwire b%d f%d.out -> s%d 4 mm2 1 m\n", i, i, i, i, i, i)
		} else {
			fmt.Fprintf(&b, "wire b%d s%d -> s%d 4 mm2 1 m\n", i, i-1, i)
		}
		fmt.Fprintf(&b, "wire c%d s%d -> l%d.pos 1 mm2 1 m\nwire d%d l%d.neg -> main.neg 1 mm2 1 m\n", i, i, i, i, i)
	}
	return b.String()
}

// BenchmarkFaults finds the faults of every wire.
func BenchmarkFaults(b *testing.B) {
	for _, lamps := range []int{100, 1700, 5000} {
		n := built(b, long(lamps))
		b.Run(fmt.Sprintf("wires=%d", len(n.Harness.Wires)), func(b *testing.B) {
			for b.Loop() {
				r := faults.Find(n)
				for _, w := range n.Harness.Wires {
					r.At(w)
				}
			}
		})
	}
}
