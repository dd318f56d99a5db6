package tables

import (
	"math"
	"slices"
)

// Chemistry is a battery's, as the language writes it.
type Chemistry string

// The chemistries that have a curve.
const (
	Lead    Chemistry = "lead"
	Lithium Chemistry = "lithium"
)

// curveTable is a curve with its source.
type curveTable struct {
	points []point
	source Source
}

var (
	ocvLead    = loadCurve("battery-ocv.csv", "soc_pct", "ocv_v")
	ocvLithium = loadCurve("battery-ocv-lithium.csv", "soc_pct", "ocv_v")
	ocvTemp    = loadCurve("battery-ocv-temp.csv", "temp_f", "add_v")
)

// loadCurve reads two columns and sorts them by the first.
func loadCurve(name, x, y string) curveTable {
	points := mustLoad(name, func(r *row) point { return point{r.num(x), r.num(y)} })
	slices.SortFunc(points, func(a, b point) int {
		if a.x < b.x {
			return -1
		}
		return 1
	})
	return curveTable{points, mustOpen(name).source}
}

// swapped turns a rising curve round, y to x.
func (c curveTable) swapped() []point {
	turned := make([]point, len(c.points))
	for i, p := range c.points {
		turned[i] = point{p.y, p.x}
	}
	return turned
}

// OpenCircuitVolts gives the rested voltage of a 12 V battery at a state of
// charge in per cent and a temperature in degC. Lead: table A of the BCI
// values, with its temperature correction; lithium: four iron phosphate cells,
// no correction. A battery of other volts has them in proportion. False for
// another chemistry.
func OpenCircuitVolts(chemistry Chemistry, socPct, tempC float64) (float64, Source, bool) {
	switch chemistry {
	case Lead:
		return along(ocvLead.points, socPct) - ocvCorrection(tempC), ocvLead.source, true
	case Lithium:
		return along(ocvLithium.points, socPct), ocvLithium.source, true
	}
	return 0, Source{}, false
}

// StateOfChargePct gives the state of charge in per cent of a rested 12 V lead
// battery that reads volts at a temperature in degC.
func StateOfChargePct(volts, tempC float64) (float64, Source) {
	return along(ocvLead.swapped(), volts+ocvCorrection(tempC)), ocvLead.source
}

// ocvCorrection is what is added to a 12 V battery's reading to bring it to
// 80 degF.
func ocvCorrection(tempC float64) float64 {
	return along(ocvTemp.points, tempC*1.8+32)
}

// BatteryOhmFromCranking estimates the resistance in ohm of a battery of a
// nominal voltage from its cold cranking amperes: it falls from 12.6 to 7.2 V
// (per 12 V) at that current and -18 degC. It's lower when warm.
func BatteryOhmFromCranking(nominalV, crankingA float64) (float64, Source) {
	fall := Constant("cranking_open_volts") - Constant("cranking_least_volts")
	return fall * nominalV / 12 / crankingA, ConstantSource("cranking_least_volts")
}

// RunHours gives how long a charge of capacityAh lasts at a current, by
// Peukert's law in its rated form: t = H (C/(I H))^n, the capacity being that
// of the H-hour rate. +Inf at no current.
func RunHours(capacityAh, rateHours, exponent, amps float64) float64 {
	if amps <= 0 {
		return math.Inf(1)
	}
	return rateHours * math.Pow(capacityAh/(amps*rateHours), exponent)
}

// PeukertExponent is the one to take for a lead battery where none is known.
func PeukertExponent() (float64, Source) {
	return Constant("peukert_exponent"), ConstantSource("peukert_exponent")
}

// aicRow is one band of the interrupting table.
type aicRow struct {
	least, most, main, branch float64
	source                    Source
}

var aic = mustLoad("aic.csv", func(r *row) aicRow {
	return aicRow{r.num("cca_min"), r.numOr("cca_max", math.Inf(1)), r.num("main_a"), r.num("branch_a"), r.source()}
})

// InterruptingA gives the least interrupting capacity in A of the first
// device behind the battery (main) and of those behind it (branch), by the
// cold cranking amperes connected (12 to 24 V; ABYC E-11 as quoted).
func InterruptingA(crankingA float64) (mainA, branchA float64, source Source) {
	for _, r := range aic {
		if crankingA <= r.most {
			return r.main, r.branch, r.source
		}
	}
	last := aic[len(aic)-1]
	return last.main, last.branch, last.source
}

// BankShortCircuitA gives the short-circuit current of a bank: parallel
// strings add, cells in series don't (ABYC E-11 as quoted).
func BankShortCircuitA(unitA float64, parallel int) float64 {
	return unitA * float64(parallel)
}

// SupplyRange is a code of ISO 16750-2: the volts that equipment works within.
type SupplyRange struct {
	NominalV     float64
	Code         string
	LeastV, MaxV float64
	Source       Source
}

var supplyRanges = mustLoad("supply-ranges.csv", func(r *row) SupplyRange {
	return SupplyRange{r.num("nominal_v"), r.text("code"), r.num("min_v"), r.num("max_v"), r.source()}
})

// SupplyCode finds a supply range of ISO 16750-2 by its letter, A to H.
func SupplyCode(code string) (SupplyRange, bool) {
	for _, r := range supplyRanges {
		if r.Code == code {
			return r, true
		}
	}
	return SupplyRange{}, false
}
