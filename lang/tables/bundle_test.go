package tables

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func equalWires(n int, d float64) []float64 {
	ods := make([]float64, n)
	for i := range ods {
		ods[i] = d
	}
	return ods
}

// Geometry: the exact closed forms of n equal circles; so seven wires of 2.4 mm lie
// in 7.2 mm (computed). One cable of 0.59 in takes 0.273 in2 of a raceway (trade
// article on NEC chapter 9 table 1: read); that table's 53 % is no limit here, where
// a bore is held against the diameter.
func TestBundleOfEqualWires(t *testing.T) {
	for n, ratio := range map[int]float64{
		1: 1, 2: 2, 3: 1 + 2/math.Sqrt(3), 4: 1 + math.Sqrt2, 7: 3, 19: 1 + math.Sqrt2 + math.Sqrt(6),
	} {
		got, _ := BundleDiameterMM(equalWires(n, 1))
		near(t, "ratio", got, ratio, 6e-5)
	}
	got, _ := BundleDiameterMM(equalWires(7, 2.4))
	near(t, "seven of 2.4 mm", got, 7.2, 1e-6)
	one, _ := BundleDiameterMM([]float64{0.59 * 25.4})
	near(t, "a cable of 0.59 in", math.Pi/4*one*one/25.4/25.4, 0.273, 0.001)
}

// Common practice, no source: 1.2 sqrt(sum d2) for unlike wires.
func TestBundleOfMixedWires(t *testing.T) {
	got, source := BundleDiameterMM([]float64{3, 4, 0, math.NaN(), 2, 1})
	near(t, "mixed", got, 7, 1e-9) // the two thickest outweigh 1.2 sqrt(30) = 6.57
	got, _ = BundleDiameterMM([]float64{2, 2, 2, 3})
	near(t, "mixed", got, 1.2*math.Sqrt(21), 1e-9)
	if source.Mark != CommonPractice {
		t.Errorf("source %s is marked %q", source, source.Mark)
	}
	if none, _ := BundleDiameterMM(nil); none != 0 {
		t.Errorf("no wires make %g mm", none)
	}
}

// The circle holds at least the wires' own area and the thickest pair.
func TestBundleHoldsItsWires(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ods := rapid.SliceOfN(rapid.Float64Range(0.5, 20), 1, 60).Draw(t, "ods")
		d, _ := BundleDiameterMM(ods)
		squares, thickest := 0.0, 0.0
		for _, od := range ods {
			squares += od * od
			thickest = max(thickest, od)
		}
		if d*d < squares*(1-1e-9) || d < thickest {
			t.Fatalf("%g mm is too thin", d)
		}
	})
}

// SAE J1128: GPT of 14 AWG has a wall of 0.023 in; so about 3.0 mm outside
// (handbook figure 0.114 in, from memory). ISO 6722 (from memory): 2.5 mm2
// thin wall at most 3.0 mm.
func TestOutsideDiameters(t *testing.T) {
	gpt, _ := Cable("gpt")
	d := OutsideDiameterMM(gpt, Gauge(14))
	near(t, "gpt 14 AWG", d.MM, 2.9, 0.2)
	if !d.Computed || d.Source.Mark != Seen {
		t.Errorf("gpt 14 AWG: %+v", d)
	}
	flry, _ := Cable("flry")
	if d := OutsideDiameterMM(flry, Metric(2.5)); d.MM != 3.0 || d.Computed || d.Source.Mark != Memory {
		t.Errorf("flry 2.5 mm2: %+v", d)
	}
	if d := OutsideDiameterMM(flry, Metric(50)); d.MM != 13.5 || d.Note != "greatest, thick wall as a bound" {
		t.Errorf("flry 50 mm2: %+v", d)
	}
	fly, _ := Cable("fly")
	if d := OutsideDiameterMM(fly, Metric(0.22)); !d.Computed || d.MM <= 0.6 {
		t.Errorf("fly 0.22 mm2: %+v", d)
	}
}

// Every cable in every size is thicker than its conductor and grows with it.
func TestDiametersGrow(t *testing.T) {
	for _, name := range CableNames() {
		c, ok := Cable(name)
		if !ok || c.TemperatureC < 80 || c.Material.Conductivity <= 0 {
			t.Fatalf("%s: %+v", name, c)
		}
		last := 0.0
		for n := 26; n >= thickestAWG; n-- {
			conductor, _ := ConductorDiameterMM(Gauge(n))
			d := OutsideDiameterMM(c, Gauge(n)).MM
			if d <= conductor || d < last {
				t.Errorf("%s %s: %g mm over a conductor of %g, thinner size %g", name, Gauge(n), d, conductor, last)
			}
			last = d
		}
		for _, mm2 := range MetricSizesMM2() {
			conductor, _ := ConductorDiameterMM(Metric(mm2))
			if d := OutsideDiameterMM(c, Metric(mm2)).MM; d < conductor {
				t.Errorf("%s %g mm2: %g mm over a conductor of %g", name, mm2, d, conductor)
			}
		}
	}
}

// SAE J1128 classes (read: cross-linked types up to 125 degC); cross-linked
// suits oil and sun, PVC neither (common practice).
func TestCablesSuit(t *testing.T) {
	for name, want := range map[string]struct {
		class    float64
		oil, sun bool
	}{
		"gpt": {80, false, false}, "gxl": {125, true, true}, "txl": {125, true, true}, "sxl": {125, true, true},
		"sgx": {125, true, true}, "flry": {105, false, false}, "bc5w2": {105, false, false}, "m22759-16": {150, true, true},
	} {
		c, ok := Cable(name)
		if !ok || c.TemperatureC != want.class || c.Oil() != want.oil || c.Sun() != want.sun {
			t.Errorf("%s: %+v", name, c)
		}
	}
	if _, ok := Cable("string"); ok {
		t.Error("an unknown cable was found")
	}
}

// The language's covers and their lasting limits (from memory).
func TestCovers(t *testing.T) {
	for name, limit := range map[string]float64{
		"loom_pe": 80, "loom_pp": 105, "loom_pa": 125, "braid": 125, "glass_sleeve": 200,
		"tape": 80, "cloth_tape": 125, "heat_shrink": 125,
	} {
		if c, ok := Cover(name); !ok || c.MaxC != limit || c.WallMM <= 0 {
			t.Errorf("%s: %+v", name, c)
		}
	}
	conduit, ok := Cover("conduit")
	if !ok || !math.IsNaN(conduit.MaxC) || len(CoverNames()) != 9 {
		t.Errorf("conduit: %+v of %v", conduit, CoverNames())
	}
	if bore, _, ok := BoreFor(7.2); !ok || bore != 7.5 {
		t.Errorf("7.2 mm wants a bore of %g", bore)
	}
	if _, _, ok := BoreFor(500); ok {
		t.Error("500 mm fits a bore")
	}
	if _, ok := Cover("paper"); ok {
		t.Error("an unknown cover was found")
	}
}
