package tables

import (
	"fmt"
	"math"
)

// areaTolerance lets a gauge's own area, and one rounded to three figures,
// take its own row.
const areaTolerance = 0.005

// Rating is how a wire's ampacity came about, so that a note can print it.
type Rating struct {
	Row     string  // "14 AWG", "0.75 mm2"
	ColumnC float64 // heading of the column: insulation temperature in degC
	BaseA   float64 // the table's figure
	BaseC   float64 // ambient in degC that the table is for
	Factor  float64 // for the ambient, 0 to 1
	Amps    float64 // BaseA x Factor
	Note    string  // what bounds the figure, if anything does
	Source  Source
}

// String writes the calculation: "35 A (14 AWG, 105 degC) x 0.86 = 30 A".
func (r Rating) String() string {
	return fmt.Sprintf("%.4g A (%s, %.4g degC) x %.3g = %.4g A", r.BaseA, r.Row, r.ColumnC, r.Factor, r.Amps)
}

// ampacityRow is one conductor size of an ampacity table.
type ampacityRow struct {
	name   string
	area   float64 // mm2
	amps   []float64
	source Source
}

// ampacityTable is a table of currents by size and insulation temperature.
type ampacityTable struct {
	columns  []float64 // insulation temperatures in degC, rising
	rows     []ampacityRow
	ambientC float64
}

var (
	table5 = ampacityTable{
		columns:  []float64{60, 75, 80, 90, 105, 125, 200},
		rows:     mustLoad("cfr183-table5.csv", gaugeRow("t60", "t75", "t80", "t90", "t105", "t125", "t200")),
		ambientC: 30,
	}
	iso10133 = ampacityTable{
		columns: []float64{60, 70, 85, 105, 125, 200},
		rows: mustLoad("iso10133-ampacity.csv", func(r *row) ampacityRow {
			name := Metric(r.num("mm2")).String()
			return ampacityRow{name, r.num("mm2"), r.amps("t60", "t70", "t85", "t105", "t125", "t200"), r.source()}
		}),
		ambientC: 30,
	}
	table119 = ampacityTable{
		columns:  []float64{105, 150, 200},
		rows:     mustLoad("ac4313-table-11-9.csv", gaugeRow("t105", "t150", "t200")),
		ambientC: 70,
	}
)

// gaugeRow reads a row that is headed by a gauge.
func gaugeRow(columns ...string) func(*row) ampacityRow {
	return func(r *row) ampacityRow {
		n := r.gauge("awg")
		return ampacityRow{Gauge(n).String(), AWGAreaMM2(n), r.amps(columns...), r.source()}
	}
}

// amps reads the currents of several columns.
func (r *row) amps(columns ...string) []float64 {
	values := make([]float64, len(columns))
	for i, column := range columns {
		values[i] = r.num(column)
	}
	return values
}

// Ampacity gives the continuous current in A of a copper conductor of
// areaMM2, its insulation's temperature class and the ambient in degC.
//
// The area takes the row of the largest gauge of 33 CFR 183.425 Table 5 not
// above it and the column of the largest class not above its own. Below 18 AWG
// ISO 10133 takes over, below that AC 43.13-1B Table 11-9 as a lower bound.
// False where no table reaches: an area below 24 AWG or a class below 60 degC.
func Ampacity(areaMM2, insulationC, ambientC float64) (Rating, bool) {
	if rating, ok := table5.rate(areaMM2, insulationC, ambientC); ok {
		return rating, true
	}
	if rating, ok := iso10133.rate(areaMM2, insulationC, ambientC); ok {
		return rating, true
	}
	rating, ok := table119.rateBelow(areaMM2, insulationC, ambientC)
	rating.Note = "lower bound: rated for 33 wires at 60 000 ft and 70 degC"
	return rating, ok
}

// Table5At gives the figure of 33 CFR 183.425 Table 5 itself in A: a gauge
// number (0 = 1/0 …) and a column heading in degC; false where it has none.
func Table5At(awg int, columnC float64) (float64, Source, bool) {
	for _, r := range table5.rows {
		for i, column := range table5.columns {
			if r.name == Gauge(awg).String() && column == columnC {
				return r.amps[i], r.source, true
			}
		}
	}
	return 0, Source{}, false
}

// AC43Ampacity gives the current in A of AC 43.13-1B Table 11-9: wires in
// bundles at 70 degC ambient. An ambient above that lowers it, one below does
// not raise it. False below 24 AWG or 60 degC.
func AC43Ampacity(areaMM2, insulationC, ambientC float64) (Rating, bool) {
	return table119.rateBelow(areaMM2, insulationC, ambientC)
}

// rate looks a wire up and corrects for the ambient.
func (t *ampacityTable) rate(areaMM2, insulationC, ambientC float64) (Rating, bool) {
	line := t.line(areaMM2)
	column := -1
	for i, heading := range t.columns {
		if heading <= insulationC {
			column = i
		}
	}
	if line == nil || column < 0 || math.IsNaN(ambientC) {
		return Rating{}, false
	}
	return t.rating(line, column, insulationC, ambientC), true
}

// rateBelow is rate for a table with no column as low as the class: its first
// column then stands, scaled by the class's own rise. The result can't be
// above the table's figure.
func (t *ampacityTable) rateBelow(areaMM2, insulationC, ambientC float64) (Rating, bool) {
	if rating, ok := t.rate(areaMM2, insulationC, ambientC); ok {
		return rating, true
	}
	line := t.line(areaMM2)
	if line == nil || !(insulationC >= table5.columns[0]) || math.IsNaN(ambientC) {
		return Rating{}, false
	}
	rating := t.rating(line, 0, t.columns[0], ambientC)
	rise := max(0, insulationC-ambientC) / (t.columns[0] - t.ambientC)
	rating.Factor = min(1, math.Sqrt(rise))
	rating.Amps = rating.BaseA * rating.Factor
	return rating, true
}

// rating puts one cell of the table and its ambient factor together.
func (t *ampacityTable) rating(line *ampacityRow, column int, insulationC, ambientC float64) Rating {
	factor := min(1, ambientFactor(insulationC, ambientC, t.ambientC))
	return Rating{
		Row: line.name, ColumnC: t.columns[column], BaseA: line.amps[column], BaseC: t.ambientC,
		Factor: factor, Amps: line.amps[column] * factor, Source: line.source,
	}
}

// line finds the row of the largest area not above areaMM2, nil where there is
// none.
func (t *ampacityTable) line(areaMM2 float64) *ampacityRow {
	var best *ampacityRow
	for i := range t.rows {
		if r := &t.rows[i]; r.area <= areaMM2*(1+areaTolerance) && (best == nil || r.area > best.area) {
			best = r
		}
	}
	return best
}
