package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
)

// TestBundleFactor: 33 CFR 183.425 note 2 (seen): 0.7, 0.6, 0.5, 0.4 for 3, 4
// to 6, 7 to 24, 25 and more conductors, only at 50 V and above (183.435 (b)): none at
// 12 V for 12 wires.
func TestBundleFactor(t *testing.T) {
	const table5 = 40 // A, 14 AWG at 125 degC and 30 degC ambient (seen)
	for _, c := range []struct {
		system string
		wires  int
		factor float64
	}{{"12 V", 12, 1}, {"48 V", 12, 1}, {"52 V", 2, 1}, {"52 V", 3, 0.7}, {"52 V", 6, 0.6}, {"52 V", 7, 0.5}, {"52 V", 25, 0.4}} {
		var b strings.Builder
		fmt.Fprintf(&b, `harness b { system %s; practice cfr183; wire gxl }
zone dry { ambient 0..30 degC }
place p, q in dry
bundle run p -> q 1 m { cover loom_pa; clamp every 400 mm }
join stud s { at p; size M6; holds 40 }
join stud u { at q; size M6; holds 40 }
`, c.system)
		for i := range c.wires {
			fmt.Fprintf(&b, "wire w%d s -> u 14 AWG\n", i)
		}
		run := check.File(source.New("t.hame", b.String()), check.Options{})
		got := run.Figures.Wires[0].Ampacity
		if got == nil || math.Abs(got.Amps-table5*c.factor) > 1e-9 {
			t.Errorf("%s, %d wires: %v, want %g A", c.system, c.wires, got, table5*c.factor)
		}
	}
}
