package quantity_test

import (
	"math"
	"testing"

	"hame/lang/quantity"
	"hame/lang/tables"
)

// Nominal diameters of ASTM B258. The two that define the series and the
// formula are seen (wiregauge in the GNU units database 2.22, which names the
// standard); the diameters between were computed with that program, so they
// come from a second implementation of the formula.
func TestGaugeDiameters(t *testing.T) {
	const mmPerInch = 25.4
	for _, c := range []struct {
		number string
		inch   float64
		within float64
	}{
		{"4/0", 0.46, 1e-15},
		{"36", 0.005, 1e-15},
		{"1/0", 0.3249, 5e-5},
		{"2", 0.2576, 5e-5},
		{"6", 0.1620, 5e-5},
		{"10", 2.5882 / mmPerInch, 5e-5 / mmPerInch},
		{"14", 0.0641, 5e-5},
		{"18", 0.0403, 5e-5},
		{"24", 0.0201, 5e-5},
		{"30", 0.0100, 5e-5},
	} {
		q, err := quantity.Parse(c.number, "AWG")
		if err != nil {
			t.Errorf("%s AWG: %v", c.number, err)
			continue
		}
		if got := tables.AWGDiameterMM(q.AWG) / mmPerInch; math.Abs(got-c.inch) > c.within {
			t.Errorf("%s AWG is %v in thick, want %v", c.number, got, c.inch)
		}
		if want := math.Pi / 4 * sq(c.inch*mmPerInch); math.Abs(q.SI-want) > want*2.1*c.within/c.inch {
			t.Errorf("%s AWG has %v mm2, want %v", c.number, q.SI, want)
		}
	}
}

func sq(x float64) float64 { return x * x }

// Areas in circular mils as tables of the trade print them (seen: computed with
// GNU units 2.22 from its wiregauge; 41740, 10380 and 4110 in print, memory).
func TestGaugeAreasInCircularMils(t *testing.T) {
	const mm2PerCircularMil = math.Pi / 4 * 0.0254 * 0.0254
	for gauge, want := range map[int]float64{-3: 211600, -1: 133077, 0: 105535, 4: 41741, 10: 10383, 14: 4107, 18: 1624} {
		if got := quantity.OfGauge(gauge).SI / mm2PerCircularMil; math.Abs(got-want) > 0.5 {
			t.Errorf("%s AWG has %.1f circular mils, want %v", quantity.OfGauge(gauge).Text, got, want)
		}
	}
}

func TestGaugesReadBack(t *testing.T) {
	for gauge := quantity.LargestGauge; gauge <= quantity.SmallestGauge; gauge++ {
		q := quantity.OfGauge(gauge)
		got, err := quantity.Parse(q.Text, q.Unit)
		if err != nil || got != q || !got.IsGauge() {
			t.Errorf("%v reads back as %v, %v", q, got, err)
		}
	}
	if q, err := quantity.Parse("0", "AWG"); err != nil || q.AWG != 0 || q.String() != "0 AWG" {
		t.Errorf("0 AWG is %v (%d), %v; it is 1/0", q, q.AWG, err)
	}
}
