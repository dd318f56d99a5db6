package rules

import (
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

// thicker finds the next size up of a wire, of its own kind of gauge, that
// meets a demand, as an edit. With none, it says so in a line.
func (c *Context) thicker(w *harness.Wire, meets func(tables.Size) bool) (*finding.Fix, []string) {
	for _, s := range sizesAbove(w.Size) {
		if meets(s) {
			if tight := c.noRoom(map[*harness.Wire]tables.Size{w: s}); tight != "" {
				return nil, []string{s.String() + " would do, but " + tight}
			}
			return &finding.Fix{
				Title: "make `" + w.Name + "` " + s.String(),
				Edits: []finding.Edit{{Place: finding.Place{File: w.Origin.File, Span: w.GaugeSpan}, Text: s.String()}},
			}, nil
		}
	}
	return nil, []string{"no size of this insulation would do: share the current out, or move the wire to a cooler place"}
}

// commonMM2 are the metric sizes that land harnesses are bought in; the tables
// know more. (Common practice, no source.)
var commonMM2 = []float64{0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120}

// Usual lists the sizes that wires are bought in, the thinnest first: metric
// areas, or gauges. Fixes and the sizing of wires choose from the same list.
func Usual(awg bool) []tables.Size {
	const belowAll = 24 // no practice allows a thinner gauge than 22
	if awg {
		return sizesAbove(tables.Gauge(belowAll))
	}
	return sizesAbove(tables.Metric(0))
}

// sizesAbove lists the sizes above one, the next first. Gauges go in even
// numbers, as they are sold.
func sizesAbove(s tables.Size) []tables.Size {
	var list []tables.Size
	if !s.IsAWG {
		for _, a := range commonMM2 {
			if a > s.MM2 {
				list = append(list, tables.Metric(a))
			}
		}
		return list
	}
	for n := s.AWG - 1; n >= -3; n-- {
		if n <= 0 || n%2 == 0 || n == 1 {
			list = append(list, tables.Gauge(n))
		}
	}
	return list
}
