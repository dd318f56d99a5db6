// Package quantity has numbers with units, ranges of them and wire gauges, as
// they are written in a harness and as they are computed with.
package quantity

// Dimension says what a quantity measures.
type Dimension uint8

// The dimensions, each with the unit that its values are computed in.
const (
	None        Dimension = iota // a bare number
	Voltage                      // V
	Current                      // A
	Resistance                   // ohm
	Power                        // W
	Length                       // m
	Area                         // mm2
	Temperature                  // degC
	Charge                       // Ah
	Time                         // s
	Ratio                        // 1 (written in %)
)

// Quantity is one number with its unit as the author wrote it. SI is the value
// in the dimension's unit; a gauge's is its area in mm2.
type Quantity struct {
	Text string    // the number as written: "2.5", "2/0", "1/4"
	Unit string    // the unit in its ASCII spelling: "mm2", "AWG"; "" for a bare number
	Dim  Dimension // what the unit measures
	SI   float64   // in the dimension's unit; NaN never occurs
	AWG  int       // the gauge number where Unit is AWG: 14, 0 for 1/0, -1 for 2/0 …
}

// String is the quantity in the formatter's spelling: "2.5 mm2".
func (q Quantity) String() string {
	if q.Unit == "" {
		return q.Text
	}
	return q.Text + " " + q.Unit
}
