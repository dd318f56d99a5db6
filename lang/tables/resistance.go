package tables

import "math"

// Resistance is what a metre of conductor has at 20 degC.
type Resistance struct {
	OhmPerM float64 // at 20 degC
	Note    string  // how the figure came about
	Source  Source
}

// iecRow is one size of IEC 60228 class 5; resistance in ohm/km.
type iecRow struct {
	mm2, plain float64
	source     Source
}

// isoRow is one size of ISO 6722; resistances in ohm/km, lengths in mm, 0
// where not known.
type isoRow struct {
	mm2, plain, thinOD, thickOD, thinWall float64
	source                                Source
}

// ac43Row is the wire of AC 43.13-1B Table 11-9.
type ac43Row struct {
	awg       int
	ohmPerKFt float64 // at 20 degC
	source    Source
}

var ac43Wire = mustLoad("ac4313-table-11-9.csv", func(r *row) ac43Row {
	return ac43Row{r.gauge("awg"), r.num("r_max_ohm_per_kft"), r.source()}
})

var iec60228 = mustLoad("iec60228.csv", func(r *row) iecRow {
	return iecRow{r.num("mm2"), r.num("class5_plain"), r.source()}
})

var iso6722 = mustLoad("iso6722.csv", func(r *row) isoRow {
	return isoRow{
		r.num("mm2"), r.num("r_plain"),
		r.numOr("thin_od_mm", 0), r.numOr("thick_od_mm", 0), r.numOr("thin_wall_mm", 0), r.source(),
	}
})

// iec60228File keeps the source of the resistance table.
var iec60228File = mustOpen("iec60228.csv")

// mustOpen is open for the package's own variables.
func mustOpen(name string) *file {
	f, err := open(name)
	if err != nil {
		panic("tables: " + err.Error())
	}
	return f
}

// ResistancePerM gives the resistance of a metre of plain stranded copper at
// 20 degC.
//
// A metric size has the greatest value of IEC 60228 class 5, else of ISO 6722,
// else one interpolated between class 5 sizes. A gauge has 1/58 ohm mm2/m over
// the least area of SAE J1127/J1128, else over its ASTM area with 2 % for
// stranding.
func ResistancePerM(s Size) Resistance {
	if s.IsAWG {
		return gaugeResistance(s.AWG)
	}
	for i := range iec60228 {
		if r := &iec60228[i]; math.Abs(r.mm2-s.MM2) < 1e-9 {
			return Resistance{r.plain / 1000, "greatest of class 5 plain copper", r.source}
		}
	}
	for i := range iso6722 {
		if r := &iso6722[i]; math.Abs(r.mm2-s.MM2) < 1e-9 {
			return Resistance{r.plain / 1000, "greatest of plain copper", r.source}
		}
	}
	return betweenSizes(s.MM2)
}

// gaugeResistance works out a gauge from its copper area.
func gaugeResistance(n int) Resistance {
	rho := Constant("copper_resistivity_20c")
	if least, found := saeArea[n]; found {
		return Resistance{rho / least.mm2, "1/58 ohm mm2/m over the least SAE area", least.source}
	}
	strand := Constant("strand_factor")
	return Resistance{strand * rho / AWGAreaMM2(n), "1/58 ohm mm2/m over the ASTM area, 2 % for stranding", awgSource}
}

// betweenSizes interpolates a metric area that no standard lists. Resistance
// times area is nearly constant, so the line is drawn on logarithms; outside
// the table the end size's resistance times area holds.
func betweenSizes(mm2 float64) Resistance {
	first, last := iec60228[0], iec60228[len(iec60228)-1]
	ohmPerKM := 0.0
	switch {
	case !(mm2 > 0):
		ohmPerKM = math.Inf(1)
	case mm2 <= first.mm2:
		ohmPerKM = first.plain * first.mm2 / mm2
	case mm2 >= last.mm2:
		ohmPerKM = last.plain * last.mm2 / mm2
	default:
		for i, r := range iec60228[1:] {
			if mm2 < r.mm2 {
				ohmPerKM = logLog(iec60228[i].mm2, iec60228[i].plain, r.mm2, r.plain, mm2)
				break
			}
		}
	}
	return Resistance{ohmPerKM / 1000, "between sizes of class 5 plain copper", iec60228File.source}
}

// AC43ResistancePerM gives the greatest resistance of tin-plated aircraft wire
// at 20 degC; false where AC 43.13-1B Table 11-9 has no such gauge.
func AC43ResistancePerM(n int) (Resistance, bool) {
	for _, r := range ac43Wire {
		if r.awg == n {
			return Resistance{r.ohmPerKFt / (1000 * metresPerFoot), "greatest of tin-plated copper", r.source}, true
		}
	}
	return Resistance{}, false
}

const metresPerFoot = 0.3048

// CopperAt takes a resistance of copper at 20 degC to another temperature. The
// unit of r20 is the unit of the answer; it's never below zero.
func CopperAt(r20, tempC float64) float64 {
	return r20 * max(0, 1+copperAlpha*(tempC-20))
}

// CopperAlpha gives the temperature coefficient of copper at 20 degC in 1/K.
func CopperAlpha() (float64, Source) { return copperAlpha, ConstantSource("copper_alpha_20c") }

var copperAlpha = Constant("copper_alpha_20c")
