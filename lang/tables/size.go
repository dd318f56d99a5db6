package tables

import (
	"math"
	"slices"
	"strconv"
)

// Size is a conductor size as it's written: a metric area or a gauge. The zero
// value is no size.
type Size struct {
	IsAWG bool
	AWG   int     // gauge number, 0 = 1/0 … -3 = 4/0
	MM2   float64 // metric area
}

// Metric is the size of a metric area in mm2.
func Metric(mm2 float64) Size { return Size{MM2: mm2} }

// Gauge is the size of an AWG gauge number.
func Gauge(n int) Size { return Size{IsAWG: true, AWG: n} }

// String writes the size with its unit: "2.5 mm2", "2/0 AWG".
func (s Size) String() string {
	if s.IsAWG {
		return AWGName(s.AWG) + " AWG"
	}
	return strconv.FormatFloat(s.MM2, 'f', -1, 64) + " mm2"
}

// Known tells whether there is such a size in a standard.
func (s Size) Known() bool {
	if s.IsAWG {
		return KnownAWG(s.AWG)
	}
	return KnownMM2(s.MM2)
}

// AreaMM2 gives the nominal area in mm2; of a gauge its ASTM B258 area.
func (s Size) AreaMM2() float64 {
	if s.IsAWG {
		return AWGAreaMM2(s.AWG)
	}
	return s.MM2
}

// CopperMM2 gives the area of copper in mm2 that the wire really must hold: a
// metric size its nominal area, a gauge the least area of SAE J1127/J1128,
// which is up to 11 % below the gauge's own, or its ASTM area where SAE has no
// such size.
func (s Size) CopperMM2() (float64, Source) {
	if !s.IsAWG {
		return s.MM2, Source{Document: iec60228File.source.Document, Clause: "nominal area", Mark: Seen}
	}
	if least, found := saeArea[s.AWG]; found {
		return least.mm2, least.source
	}
	return AWGAreaMM2(s.AWG), awgSource
}

// KnownMM2 tells whether a metric area is a size of IEC 60228 or ISO 6722.
func KnownMM2(area float64) bool {
	_, found := slices.BinarySearchFunc(metricSizes, area, func(size, target float64) int {
		switch {
		case math.Abs(size-target) < 1e-9:
			return 0
		case size < target:
			return -1
		}
		return 1
	})
	return found
}

// MetricSizesMM2 lists the metric areas of IEC 60228 and ISO 6722 in mm2, from
// thin to thick.
func MetricSizesMM2() []float64 { return slices.Clone(metricSizes) }

// metricSizes is the union of the two standards' sizes.
var metricSizes = unionOfSizes()

func unionOfSizes() []float64 {
	var sizes []float64
	for _, r := range iec60228 {
		sizes = append(sizes, r.mm2)
	}
	for _, r := range iso6722 {
		sizes = append(sizes, r.mm2)
	}
	slices.Sort(sizes)
	return slices.Compact(sizes)
}

// leastArea is the least copper of one SAE size.
type leastArea struct {
	mm2    float64
	source Source
}

// saeArea holds the least copper by gauge number.
var saeArea = loadSAEAreas()

func loadSAEAreas() map[int]leastArea {
	areas := map[int]leastArea{}
	type sized struct {
		awg int
		leastArea
	}
	for _, r := range mustLoad("sae-min-area.csv", func(r *row) sized {
		return sized{r.gauge("awg"), leastArea{r.num("min_cmil") * circularMilMM2, r.source()}}
	}) {
		areas[r.awg] = r.leastArea
	}
	return areas
}
