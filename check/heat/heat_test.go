package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hame/lang/tables"
)

// gxl is a wire of SAE J1128 type GXL.
func gxl(awg int) Wire {
	cable, _ := tables.Cable("gxl")
	return WireOf(cable, tables.Gauge(awg))
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g (within %.2g)", what, got, want, tolerance)
	}
}

// Air at 300 K in heat-transfer handbooks (from memory): 0.0263 W/(m K) and
// 15.89e-6 m2/s; at 400 K 0.0338 and 26.41e-6. Their density, and so their
// viscosity, is for 1 bar, ours for an atmosphere.
func TestAirAgainstHandbook(t *testing.T) {
	for kelvin, want := range map[float64][2]float64{300: {0.0263, 15.89e-6}, 400: {0.0338, 26.41e-6}} {
		conductivity, viscosity := airAt(kelvin)
		near(t, "conductivity", conductivity, want[0], 0.01*want[0])
		near(t, "viscosity", viscosity*seaLevelPa/1e5, want[1], 0.01*want[1])
	}
}

// A heat-transfer textbook's worked example (from memory): a horizontal pipe
// of 0.1 m, 165 degC in a room of 23 degC, emissivity 0.85, loses 347 W/m by
// convection and 441 W/m by radiation.
func TestSurfaceAgainstTextbook(t *testing.T) {
	want := 347 + 441*emissivity/0.85
	near(t, "pipe", surfaceLoss(100, 165, 23), want, 0.03*want)
}

// Churchill and Chu's second relation, for laminar flow only, is independent
// of the first: both give the loss of thin wire within 15 %.
func TestSurfaceAgainstLaminarRelation(t *testing.T) {
	for _, mm := range []float64{2, 5, 15} {
		const surfaceC, ambientC = 90.0, 40.0
		d, film := mm/1000, (surfaceC+ambientC)/2+zeroC
		k, nu := airAt(film)
		ra := gravity * (surfaceC - ambientC) * d * d * d / film * prandtl / (nu * nu)
		nusselt := 0.36 + 0.518*math.Pow(ra, 0.25)/math.Pow(1+math.Pow(0.559/prandtl, 9.0/16), 4.0/9)
		radiation := emissivity * stefanBoltzmann * math.Pi * d * (math.Pow(surfaceC+zeroC, 4) - math.Pow(ambientC+zeroC, 4))
		want := math.Pi*k*nusselt*(surfaceC-ambientC) + radiation
		near(t, "loss", surfaceLoss(mm, surfaceC, ambientC), want, 0.15*want)
	}
}

// At the answer the heat made is the heat shed: the equations are solved, not
// merely iterated.
func TestBalanceHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := gxl(rapid.IntRange(-3, 20).Draw(t, "awg"))
		amps := rapid.Float64Range(0, 1.2).Draw(t, "share") * LimitAmps(w, 125, 30)
		ambientC := rapid.Float64Range(-40, 90).Draw(t, "ambient")
		tempC, ok := Single(w, amps, ambientC)
		if !ok {
			t.Fatalf("no balance at %g A", amps)
		}
		made := amps * amps * tables.CopperAt(w.R20OhmPerM, tempC)
		shed := surfaceLoss(w.OutsideDiameterMM, tempC-made*w.insulationRise(), ambientC)
		if math.Abs(made-shed) > 1e-3*made+1e-6 {
			t.Fatalf("at %g degC %g W/m are made and %g shed", tempC, made, shed)
		}
	})
}

// LimitAmps is Single turned round.
func TestLimitIsTheInverse(t *testing.T) {
	for _, awg := range []int{18, 10, 2, -3} {
		for _, limitC := range []float64{60, 125, 600} {
			tempC, ok := Single(gxl(awg), LimitAmps(gxl(awg), limitC, 40), 40)
			if !ok {
				t.Fatalf("%d AWG doesn't settle at %g degC", awg, limitC)
			}
			near(t, "limit", tempC, limitC, 1e-3)
		}
	}
	if LimitAmps(gxl(14), 40, 40) != 0 || LimitAmps(gxl(14), 30, 40) != 0 || LimitAmps(Wire{}, 100, 40) != 0 {
		t.Error("a current that warms nothing is above 0")
	}
}

// A wire without current is as warm as the air.
func TestNoCurrent(t *testing.T) {
	if tempC, ok := Single(gxl(14), 0, 37); !ok || tempC != 37 {
		t.Errorf("%g degC", tempC)
	}
	temps, ok := alike(gxl(14), 5, 0, 0).Solve(37)
	if !ok || temps[4] != 37 {
		t.Errorf("%v", temps)
	}
}

// A bundle of one bare wire is the wire alone.
func TestBundleOfOne(t *testing.T) {
	for _, amps := range []float64{1, 20, 45} {
		alone, _ := Single(gxl(14), amps, 50)
		temps, ok := alike(gxl(14), 1, 1, amps).Solve(50)
		if !ok {
			t.Fatalf("%g A", amps)
		}
		near(t, "bundle of one", temps[0], alone, 1e-6)
	}
}

// The temperatures that Solve gives satisfy the model's own equations, put
// together in another way: each wire's heat from its temperature, the surface
// from the sum.
func TestBundleBalanceHolds(t *testing.T) {
	b := Bundle{
		Wires: []Wire{gxl(10), gxl(14), gxl(16), gxl(18), gxl(18)}, Amps: []float64{30, -12, 6, 0, 3},
		BoreMM: 14, CoverDiameterMM: 17,
	}
	temps, ok := b.Solve(55)
	if !ok {
		t.Fatal("no balance")
	}
	l := b.layers()
	heats, sum := make([]float64, len(temps)), 0.0
	for i, w := range b.Wires {
		heats[i] = b.Amps[i] * b.Amps[i] * tables.CopperAt(w.R20OhmPerM, temps[i])
		sum += heats[i]
	}
	surfaceC := temps[3] - sum*(l.cover+l.core) // the wire without current
	near(t, "heat shed", surfaceLoss(17, surfaceC, 55), sum, 1e-4*sum)
	for i, w := range b.Wires {
		near(t, "wire", temps[i], surfaceC+sum*l.cover+(sum-heats[i])*l.core+heats[i]*l.own(w), 1e-6)
	}
}

// More current, more ambient, more neighbours with current, or a loom round
// the bundle never cools a wire; current without limit ends in +Inf.
func TestBundleIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 50).Draw(t, "n")
		loaded := rapid.IntRange(1, n).Draw(t, "loaded")
		amps := rapid.Float64Range(0, 60).Draw(t, "amps")
		b := alike(gxl(rapid.IntRange(8, 20).Draw(t, "awg")), n, loaded, amps)
		base, _ := b.Solve(40)
		hotter, _ := b.Solve(41)
		more := alike(b.Wires[0], n, min(n, loaded+1), amps*1.01)
		busier, _ := more.Solve(40)
		if hotter[0] < base[0] || busier[0] < base[0]-1e-6 || base[0] < 40-1e-9 {
			t.Fatalf("base %g, hotter %g, busier %g", base[0], hotter[0], busier[0])
		}
	})
}

// A loose loom with its air gap keeps a bundle warmer than a close braid.
func TestCoversKeepWarm(t *testing.T) {
	b := alike(gxl(14), 7, 7, 15)
	bare, _ := b.Solve(40)
	b.BoreMM, b.CoverDiameterMM = 0, b.diameter()+1
	braided, _ := b.Solve(40)
	b.BoreMM, b.CoverDiameterMM = b.diameter()+4, b.diameter()+6
	loomed, _ := b.Solve(40)
	if !(loomed[0] > braided[0] && math.Abs(braided[0]-bare[0]) < 5) {
		t.Errorf("bare %g, braided %g, loomed %g", bare[0], braided[0], loomed[0])
	}
}

// Idle wires make the bundle thicker and carry heat away from a loaded one,
// but it stays warmer than alone, and they stay cooler than it.
func TestIdleNeighbours(t *testing.T) {
	temps, ok := alike(gxl(14), 12, 1, 30).Solve(30)
	if !ok || !(temps[0] > temps[1] && temps[1] > 30) || temps[1] != temps[11] {
		t.Errorf("%v", temps)
	}
}

// Heat that outruns the cooling ends in +Inf with a flag, for ever.
func TestRunaway(t *testing.T) {
	for _, amps := range []float64{300, 1e4, 1e150, math.MaxFloat64} {
		if tempC, ok := Single(gxl(18), amps, 30); ok || !math.IsInf(tempC, 1) {
			t.Errorf("%g A: %g degC, %v", amps, tempC, ok)
		}
		temps, ok := alike(gxl(18), 50, 50, amps).Solve(30)
		if ok || !math.IsInf(temps[0], 1) || !math.IsInf(temps[49], 1) {
			t.Errorf("%g A in a bundle: %v", amps, temps[0])
		}
	}
}

// Nonsense is refused: no wire, no number, no air.
func TestNonsense(t *testing.T) {
	w, nan, inf := gxl(14), math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		w              Wire
		amps, ambientC float64
	}{
		"no wire": {Wire{}, 1, 30}, "no amps": {w, nan, 30}, "all amps": {w, inf, 30}, "no ambient": {w, 1, nan},
		"colder than air": {w, 1, -273}, "inside out": {Wire{3, 2, 0.01, 0.2}, 1, 30}, "no copper": {Wire{1, 2, inf, 0.2}, 1, inf},
	} {
		if tempC, ok := Single(c.w, c.amps, c.ambientC); ok || !math.IsInf(tempC, 1) {
			t.Errorf("%s: %g, %v", name, tempC, ok)
		}
		if _, ok := alike(c.w, 3, 3, c.amps).Solve(c.ambientC); ok {
			t.Errorf("%s in a bundle was solved", name)
		}
	}
	if _, ok := (Bundle{Wires: []Wire{w}}).Solve(30); ok {
		t.Error("a bundle without currents was solved")
	}
	if temps, ok := (Bundle{}).Solve(30); !ok || len(temps) != 0 {
		t.Error("an empty bundle has no temperatures")
	}
	if _, ok := (Bundle{Wires: []Wire{w}, Amps: []float64{1}, BoreMM: nan}).Solve(30); ok {
		t.Error("a bundle in no bore was solved")
	}
}

// A stated diameter stands, but not below the thickest wire.
func TestStatedDiameter(t *testing.T) {
	b := alike(gxl(14), 2, 2, 20)
	b.DiameterMM = 30
	wide, _ := b.Solve(30)
	b.DiameterMM = 0.1
	tight, ok := b.Solve(30)
	if !ok || wide[0] >= tight[0] {
		t.Errorf("wide %g, tight %g", wide[0], tight[0])
	}
}

func BenchmarkSingle(b *testing.B) {
	w := gxl(14)
	for b.Loop() {
		Single(w, 20, 50)
	}
}

func BenchmarkBundleOf50(b *testing.B) {
	bundle := Bundle{CoverDiameterMM: 40, BoreMM: 37}
	for i := range 50 {
		bundle.Wires = append(bundle.Wires, gxl(18-2*(i%3)))
		bundle.Amps = append(bundle.Amps, float64(i%5))
	}
	for b.Loop() {
		bundle.Solve(50)
	}
}
