package tables

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func amps(t *testing.T, area, insulationC, ambientC float64) Rating {
	t.Helper()
	r, ok := Ampacity(area, insulationC, ambientC)
	if !ok {
		t.Fatalf("no rating for %g mm2, %g degC at %g degC", area, insulationC, ambientC)
	}
	return r
}

// 33 CFR 183.425 Table 5, 105 degC column (read in two independent copies) and
// single cells of the others.
func TestAmpacityAgainstTable5(t *testing.T) {
	for n, want := range map[int]float64{
		18: 20, 16: 25, 14: 35, 12: 45, 10: 60, 8: 80, 6: 120, 4: 160, 3: 180, 2: 210, 1: 245,
		0: 285, -1: 330, -2: 385, -3: 445,
	} {
		r := amps(t, AWGAreaMM2(n), 105, 30)
		if r.Amps != want || r.Row != Gauge(n).String() {
			t.Errorf("%s: %s, want %g A", Gauge(n), r, want)
		}
	}
	for _, c := range []struct {
		awg          int
		column, want float64
	}{{18, 60, 10}, {14, 80, 25}, {10, 125, 70}, {8, 75, 65}, {6, 80, 100}, {6, 90, 100}, {-3, 200, 510}} {
		if got, source, ok := Table5At(c.awg, c.column); !ok || got != c.want || source.Mark != Seen {
			t.Errorf("%d AWG at %g degC: %g, want %g", c.awg, c.column, got, c.want)
		}
	}
	if _, _, ok := Table5At(20, 105); ok {
		t.Error("Table 5 has no 20 AWG")
	}
}

// A metric area takes the row of the largest gauge not above it (the contract:
// 2.5 mm2 row 14, 1 mm2 row 18).
func TestMetricAreasTakeTheGaugeBelow(t *testing.T) {
	for area, row := range map[float64]string{
		1: "18 AWG", 1.5: "16 AWG", 2.5: "14 AWG", 4: "12 AWG", 6: "10 AWG", 10: "8 AWG", 16: "6 AWG",
		25: "4 AWG", 35: "2 AWG", 50: "1 AWG", 70: "2/0 AWG", 95: "3/0 AWG", 120: "4/0 AWG", 300: "4/0 AWG",
		2.08: "14 AWG", 0.82: "18 AWG", 0.75: "0.75 mm2", 0.5: "22 AWG", 0.35: "22 AWG", 0.22: "24 AWG",
	} {
		if got := amps(t, area, 105, 30).Row; got != row {
			t.Errorf("%g mm2 took row %q, want %q", area, got, row)
		}
	}
}

// ISO 10133 (from memory) below 18 AWG, AC 43.13-1B Table 11-9 below that as a
// lower bound, which a cooler ambient doesn't raise.
func TestSmallWire(t *testing.T) {
	if r := amps(t, 0.75, 105, 30); r.Amps != 16 || r.Source.Document != "ISO 10133" || r.Source.Mark != Memory {
		t.Errorf("0.75 mm2: %s from %s", r, r.Source)
	}
	if r := amps(t, 0.75, 90, 30); r.Amps != 12 || r.ColumnC != 85 {
		t.Errorf("0.75 mm2 at 90 degC: %s", r)
	}
	if r := amps(t, AWGAreaMM2(20), 105, 30); r.Amps != 4 || r.Note == "" || r.BaseC != 70 {
		t.Errorf("20 AWG: %s, %q", r, r.Note)
	}
	r := amps(t, AWGAreaMM2(20), 80, 70)
	near(t, "20 AWG of 80 degC at 70 degC", r.Amps, 4*math.Sqrt(10.0/35), 1e-9)
	if _, ok := Ampacity(0.13, 105, 30); ok {
		t.Error("0.13 mm2 is below every table")
	}
}

// A class between two columns takes the lower one, with its own class in the
// ambient factor.
func TestClassTakesTheColumnBelow(t *testing.T) {
	for class, column := range map[float64]float64{60: 60, 70: 60, 85: 80, 100: 90, 110: 105, 150: 125, 260: 200} {
		if got := amps(t, 2.5, class, 30).ColumnC; got != column {
			t.Errorf("class %g took column %g, want %g", class, got, column)
		}
	}
	if _, ok := Ampacity(2.5, 55, 30); ok {
		t.Error("a class below every column was rated")
	}
}

// 33 CFR 183.425 note 1 (105 degC read, the rest from memory) against the
// square-root law, and the 105 degC engine space chart made from it (read: 10 AWG
// carries 51 A), printed with .5 rounded either way.
func TestEngineSpaceAgainstNote1(t *testing.T) {
	for _, e := range engineSpace {
		factor, _ := AmbientFactor(e.key, EngineSpaceC)
		near(t, "note 1", factor, e.factor, 0.0065)
	}
	for n, want := range map[int]float64{18: 17, 14: 30, 12: 38, 10: 51, 6: 102, 4: 136, 2: 178, 1: 208, -1: 280, -2: 327} {
		published, _, ok := EngineSpaceFactor(105)
		base, _, _ := Table5At(n, 105)
		if !ok {
			t.Fatal("no factor at 105 degC")
		}
		near(t, "chart, note 1", base*published, want, 1)
	}
	near(t, "10 AWG by the law", amps(t, AWGAreaMM2(10), 105, 50).Amps, 51, 0.5)
	if _, _, ok := EngineSpaceFactor(200); ok {
		t.Error("the 200 degC factor isn't known")
	}
	if _, _, ok := EngineSpaceFactor(50); ok {
		t.Error("a class below 60 degC has no factor")
	}
	if f, _, _ := EngineSpaceFactor(150); f != 0.89 {
		t.Errorf("150 degC takes the 125 degC factor, got %g", f)
	}
}

// NEC 310.15(B)(2)(b) ambient table (read): the square-root law gives every
// entry within 0.006; so 0.89 for 90 degC wire in 50 degC, 0.65 for 75 in 60.
func TestAmbientLawAgainstNEC(t *testing.T) {
	f := testTable(t, "nec-ambient.csv")
	cells := 0
	for _, column := range []struct {
		name  string
		class float64
	}{{"t60", 60}, {"t75", 75}, {"t90", 90}, {"t150", 150}, {"t200", 200}, {"t250", 250}} {
		rows, err := readRows(f, func(r *row) point { return point{r.num("ambient_c"), r.numOr(column.name, -1)} })
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range rows {
			if p.y >= 0 {
				near(t, column.name, AmbientFactorFrom(column.class, p.x, 40), p.y, 0.006)
				cells++
			}
		}
	}
	if cells != 68 {
		t.Errorf("%d cells were compared, the table has 68", cells)
	}
}

// 33 CFR 183.435(b) (read): note 2 binds at 50 V and above only, so that 12 wires
// of 12 V have no factor.
func TestBundleFactorOfNote2(t *testing.T) {
	for n, want := range map[int]float64{1: 1, 2: 1, 3: 0.7, 4: 0.6, 6: 0.6, 7: 0.5, 24: 0.5, 25: 0.4, 500: 0.4} {
		if got, _ := CFRBundleFactor(n, 50); got != want {
			t.Errorf("%d conductors at 50 V: %g, want %g", n, got, want)
		}
		if got, _ := CFRBundleFactor(n, 12); got != 1 {
			t.Errorf("%d conductors at 12 V: %g", n, got)
		}
	}
}

// AC 43.13-1B CHG 1 Table 11-9, and 11-67 example 2 step 1 (read): 47 A in free air,
// 0.91 for 20 000 ft, 0.6 for 8 wires at 60 %, 25.66 A printed as 26. 11-69's example
// (from memory, its factors not sure): 0.86 for 26 000 ft and 0.43 for 35 wires at
// 40 %, 7.95 A for each of 10 and 6.0 A for each of 25, 91.8 A of 229.5 A in all.
func TestAircraftPractice(t *testing.T) {
	r, ok := AC43Ampacity(AWGAreaMM2(14), 105, 50)
	if !ok || r.Amps != 10 || r.Source.String() != "AC 43.13-1B Table 11-9" {
		t.Errorf("14 AWG: %s from %s", r, r.Source)
	}
	altitude, _ := AC43AltitudeFactor(20000 * metresPerFoot)
	near(t, "after altitude", 47*altitude, 42.77, 0.01)
	points := AC43BundlePoints()
	near(t, "8 wires", 47*altitude*points[0].Factor, 25.66, 0.01)
	if points[0].Wires != 8 || points[0].LoadingPct != 60 || points[2].Wires != 35 || points[2].LoadingPct != 40 {
		t.Fatalf("points %+v", points)
	}
	high, _ := AC43AltitudeFactor(26000 * metresPerFoot)
	thick, thin := 21.5*high*points[2].Factor, 16.2*high*points[2].Factor
	near(t, "20 AWG of 35 wires", thick, 7.95, 0.01)
	near(t, "22 AWG of 35 wires", thin, 6.0, 0.01)
	near(t, "35 wires at 40 %", (10*thick+25*thin)*points[2].LoadingPct/100, 91.8, 0.1)
	for feet, want := range map[float64]float64{-100: 1, 0: 1, 10000: 0.955, 26000: 0.86, 1e6: 0} {
		got, _ := AC43AltitudeFactor(feet * metresPerFoot)
		near(t, "altitude", got, want, 1e-9)
	}
}

// More copper, a better class or a cooler place never lowers the ampacity
// within Table 5; an ambient at the class leaves nothing.
func TestAmpacityIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := rapid.Float64Range(AWGAreaMM2(18), 300).Draw(t, "area")
		class := rapid.SampledFrom([]float64{60, 75, 80, 90, 105, 125, 200}).Draw(t, "class")
		ambient := rapid.Float64Range(-40, 220).Draw(t, "ambient")
		more := rapid.Float64Range(0, 50).Draw(t, "more")
		base, _ := Ampacity(area, class, ambient)
		thicker, _ := Ampacity(area+more, class, ambient)
		hotter, _ := Ampacity(area, class, ambient+more)
		if thicker.Amps < base.Amps || hotter.Amps > base.Amps || base.Factor > 1 {
			t.Fatalf("base %s, thicker %s, hotter %s", base, thicker, hotter)
		}
		if ambient >= class && base.Amps != 0 {
			t.Fatalf("ambient at the class leaves %s", base)
		}
	})
}

func TestAmpacityOfNonsense(t *testing.T) {
	nan := math.NaN()
	for _, c := range [][3]float64{{nan, 105, 30}, {2.5, nan, 30}, {2.5, 105, nan}, {-1, 105, 30}, {0, 105, 30}} {
		if r, ok := Ampacity(c[0], c[1], c[2]); ok {
			t.Errorf("%v was rated %s", c, r)
		}
	}
}

func BenchmarkAmpacity(b *testing.B) {
	for b.Loop() {
		Ampacity(2.5, 105, 50)
	}
}
