package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hame/lang/tables"
)

// Short and strong, no heat is lost: the time is the closed form of IEC 60949
// with the copper's own area (k = 226 from its volumetric heat, from memory).
func TestTransientAgainstAdiabatic(t *testing.T) {
	w := gxl(14)
	const amps, startC, limitC = 1500.0, 90.0, 250.0
	k := 226 * math.Sqrt(math.Log(1+(limitC-startC)/(234.5+startC)))
	s := tables.Constant("copper_resistivity_20c") / w.R20OhmPerM
	want := math.Pow(k*s/amps, 2)
	near(t, "time", TransientSeconds(w, amps, startC, limitC, startC), want, 0.005*want)
}

// The warming never beats the one without losses, and a current below the
// steady limit never gets there.
func TestTransientIsBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := gxl(rapid.IntRange(-3, 20).Draw(t, "awg"))
		ambientC := rapid.Float64Range(-30, 80).Draw(t, "ambient")
		limitC := rapid.Float64Range(125, 250).Draw(t, "limit")
		steady := LimitAmps(w, limitC, ambientC)
		amps := steady * rapid.Float64Range(0.1, 20).Draw(t, "share")
		seconds := TransientSeconds(w, amps, 100, limitC, ambientC)
		k := 226 * math.Sqrt(math.Log(1+(limitC-100)/(234.5+100)))
		s := tables.Constant("copper_resistivity_20c") / w.R20OhmPerM
		if least := math.Pow(k*s/amps, 2); seconds < 0.99*least {
			t.Fatalf("%g A: %g s, at least %g", amps, seconds, least)
		}
		if amps < 0.999*steady && !math.IsInf(seconds, 1) {
			t.Fatalf("%g A of %g steady: %g s", amps, steady, seconds)
		}
		if amps > 1.01*steady && math.IsInf(seconds, 1) {
			t.Fatalf("%g A of %g steady never gets there", amps, steady)
		}
		if again := TransientSeconds(w, amps*1.1, 100, limitC, ambientC); again > seconds {
			t.Fatalf("more current takes longer: %g s, then %g s", seconds, again)
		}
	})
}

// Added up in small equal steps of time (explicit Euler), the wire gets there
// at the same time: the quadrature is right.
func TestTransientAgainstTimeSteps(t *testing.T) {
	w := gxl(10)
	const amps, startC, limitC, ambientC, step = 150.0, 40.0, 200.0, 40.0, 0.002
	seconds, copperC := 0.0, startC
	for copperC < limitC && seconds < 1000 {
		surfaceC := w.surfaceAt(copperC, ambientC)
		left := amps*amps*tables.CopperAt(w.R20OhmPerM, copperC) - surfaceLoss(w.OutsideDiameterMM, surfaceC, ambientC)
		copperC += left * step / (copperHeat * w.copperM2())
		seconds += step
	}
	near(t, "time", TransientSeconds(w, amps, startC, limitC, ambientC), seconds, 0.005*seconds)
}

func TestTransientEdges(t *testing.T) {
	w := gxl(14)
	if got := TransientSeconds(w, 10, 160, 150, 30); got != 0 {
		t.Errorf("there already: %g s", got)
	}
	if got := TransientSeconds(w, 0, 30, 150, 30); !math.IsInf(got, 1) {
		t.Errorf("no current: %g s", got)
	}
	if got := TransientSeconds(w, 200, -20, 150, 60); !(got > 0) || math.IsInf(got, 1) {
		t.Errorf("from below ambient: %g s", got)
	}
	for _, c := range [][4]float64{
		{math.NaN(), 30, 150, 30},
		{10, math.NaN(), 150, 30},
		{10, 30, math.Inf(1), 30},
		{10, 30, 150, math.NaN()},
		{10, 30, 1200, 30},
		{10, 30, 150, -300},
	} {
		if got := TransientSeconds(w, c[0], c[1], c[2], c[3]); !math.IsNaN(got) {
			t.Errorf("%v: %g s", c, got)
		}
	}
	if got := TransientSeconds(Wire{}, 10, 30, 150, 30); !math.IsNaN(got) {
		t.Errorf("no wire: %g s", got)
	}
}

func BenchmarkTransient(b *testing.B) {
	w := gxl(14)
	for b.Loop() {
		TransientSeconds(w, 80, 105, 160, 50)
	}
}
