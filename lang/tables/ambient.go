package tables

import "math"

// AmbientFactor corrects an ampacity for 30 degC to another ambient: the square
// root of the temperature rises, never above 1, 0 where the ambient reaches
// the insulation's class (the law behind 33 CFR 183.425 note 1 and the NEC
// table).
func AmbientFactor(insulationC, ambientC float64) (float64, Source) {
	return min(1, ambientFactor(insulationC, ambientC, table5.ambientC)), engineSpace[0].source
}

// AmbientFactorFrom is the square-root law from any base ambient; it may be
// above 1. NaN where the class isn't above the base.
func AmbientFactorFrom(insulationC, ambientC, baseC float64) float64 {
	return ambientFactor(insulationC, ambientC, baseC)
}

func ambientFactor(insulationC, ambientC, baseC float64) float64 {
	if insulationC <= baseC {
		return math.NaN()
	}
	return math.Sqrt(max(0, insulationC-ambientC) / (insulationC - baseC))
}

// keyed is a factor under one number.
type keyed struct {
	key, factor float64
	source      Source
}

var engineSpace = mustLoad("cfr183-engine-space.csv", func(r *row) keyed {
	return keyed{r.num("insulation_c"), r.num("factor"), r.source()}
})

// EngineSpaceC is the ambient in degC that note 1 of 33 CFR 183.425 is for.
const EngineSpaceC = 50

// EngineSpaceFactor gives note 1 of 33 CFR 183.425 Table 5, for an ambient of
// exactly EngineSpaceC, at the largest listed class not above insulationC.
// False at 200 degC, which isn't known, and below 60 degC.
func EngineSpaceFactor(insulationC float64) (float64, Source, bool) {
	best := keyed{}
	for _, e := range engineSpace {
		if e.key <= insulationC && e.key > best.key {
			best = e
		}
	}
	return best.factor, best.source, best.key > 0 && insulationC < 200
}

// span is a factor for a range of counts.
type span struct {
	least, most int // most 0: and more
	factor      float64
	source      Source
}

var cfrBundle = mustLoad("cfr183-bundle.csv", func(r *row) span {
	return span{int(r.num("n_min")), int(r.numOr("n_max", 0)), r.num("factor"), r.source()}
})

// CFRBundleFactor gives note 2 of 33 CFR 183.425 Table 5 for a number of
// current-carrying conductors in a bundle. It binds from 50 V up only: below,
// the factor is 1, which doesn't make a large bundle safe.
func CFRBundleFactor(conductors int, volts float64) (float64, Source) {
	for _, s := range cfrBundle {
		if volts >= 50 && conductors >= s.least && (s.most == 0 || conductors <= s.most) {
			return s.factor, s.source
		}
	}
	return 1, cfrBundle[0].source
}

var ac43Altitude = mustLoad("ac4313-altitude.csv", func(r *row) keyed {
	return keyed{r.num("altitude_ft"), r.num("factor"), r.source()}
})

// AC43AltitudeFactor gives the current factor of AC 43.13-1B figure 11-5 at an
// altitude in m, straight between the few points that are known. Above the
// last point its slope goes on, never below 0. Ground vehicles may leave it
// out below about 2000 m.
func AC43AltitudeFactor(altitudeM float64) (float64, Source) {
	feet := max(0, altitudeM) / metresPerFoot
	last := len(ac43Altitude) - 1
	i := 1
	for i < last && ac43Altitude[i].key < feet {
		i++
	}
	low, high := ac43Altitude[i-1], ac43Altitude[i]
	return max(0, linear(low.key, low.factor, high.key, high.factor, feet)), high.source
}

// BundlePoint is one point of AC 43.13-1B figure 11-6.
type BundlePoint struct {
	Wires      int
	LoadingPct float64 // share of the harness's capacity in use
	Factor     float64
	Source     Source
}

var ac43Bundle = mustLoad("ac4313-bundle.csv", func(r *row) BundlePoint {
	return BundlePoint{int(r.num("wires")), r.num("loading_pct"), r.num("factor"), r.source()}
})

// AC43BundlePoints lists the points of figure 11-6 that are known. Nothing is
// interpolated between them: the figure is a chart in two variables. They
// apply to a free-air rating, not to Table 11-9, which is for bundles already.
func AC43BundlePoints() []BundlePoint { return append([]BundlePoint(nil), ac43Bundle...) }
