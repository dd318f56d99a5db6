package readings

import (
	"fmt"
	"math"
	"strings"

	"hame/check/trial"
)

// mostRemarks on the file; what is more is counted.
const mostRemarks = 20

// match puts each row of the form to its line of the plan.
func (r *Report) match(plan *trial.Plan, sheet *Sheet) {
	rows := map[string][]Row{}
	known := map[string]bool{}
	for _, l := range plan.Lines {
		known[l.ID] = true
	}
	stale := 0
	for _, row := range sheet.Rows {
		switch {
		case known[row.ID]:
			rows[row.ID] = append(rows[row.ID], row)
		case row.ID == "":
			r.remark("line %d has a reading and no id", row.Number)
		case !isBlank(row.Read):
			r.remark("line %d: the plan of this harness has no `%s`", row.Number, short(row.ID))
		}
	}
	for _, l := range plan.Lines {
		item := judge(l, rows[l.ID], sheet.Commas)
		if len(rows[l.ID]) > 0 && differs(rows[l.ID][0], l) {
			stale++
		}
		r.Items = append(r.Items, item)
	}
	if stale > 0 {
		r.remark("on %d lines the form has other figures than the harness gives now: it was printed from another state of it", stale)
	}
	if more := len(r.Remarks) - mostRemarks; more > 0 {
		r.Remarks = append(r.Remarks[:mostRemarks], fmt.Sprintf("and %d more of these", more))
	}
}

func (r *Report) remark(format string, args ...any) {
	r.Remarks = append(r.Remarks, fmt.Sprintf(format, args...))
}

// differs: the form's own band is another one.
func differs(row Row, l trial.Line) bool {
	for _, pair := range [][2]string{{row.Low, l.LowText()}, {row.High, l.HighText()}} {
		if was := strings.ReplaceAll(pair[0], ",", "."); was != "" && was != pair[1] && !same(was, pair[1]) {
			return true
		}
	}
	return false
}

// same: two texts are one figure; a spreadsheet writes 0.50 as 0.5.
func same(a, b string) bool {
	x, err := number(a, true)
	y, wrong := number(b, true)
	return err == nil && wrong == nil && math.Abs(x-y) <= 1e-9*max(1, math.Abs(y))
}

// judge is what became of one line. A line that was filled in twice counts where
// both say the same.
func judge(l trial.Line, rows []Row, commas bool) Item {
	item := Item{Line: l, State: Blank}
	for _, row := range rows {
		if isBlank(row.Read) {
			continue
		}
		value, err := Parse(row.Read, row.Unit, l.Unit, commas)
		switch {
		case err != nil:
			return Item{Line: l, State: Unreadable, Row: row.Number, Text: row.Read, Why: err.Error()}
		case item.State != Blank && value != item.SI:
			return Item{Line: l, State: Unreadable, Row: row.Number, Text: row.Read, Why: fmt.Sprintf("line %d says `%s`", item.Row, short(item.Text))}
		}
		item.State, item.Row, item.Text, item.SI = stateOf(l, value), row.Number, row.Read, value
	}
	if item.State == Drifted {
		item.Why = alone(item)
	}
	return item
}

func stateOf(l trial.Line, value float64) State {
	const dust = 1e-9
	slack := dust * max(1, math.Abs(value))
	switch {
	case value < l.Low-slack || value > l.High+slack:
		return Drifted
	case l.Expect == nil && math.IsInf(l.Low, -1) && math.IsInf(l.High, 1):
		return Unjudged
	}
	return Within
}

// alone is what a reading points to by itself, "" where the pattern decides.
func alone(i Item) string {
	l := i.Line
	switch l.Kind {
	case trial.Isolation:
		return fmt.Sprintf("%s and %s touch, or something is still plugged in", l.From, l.To)
	case trial.Polarity:
		if l.Expect != nil && i.SI**l.Expect < 0 && math.Abs(i.SI) > math.Abs(*l.Expect)/2 {
			return fmt.Sprintf("the two wires at %s are the wrong way round", l.Name)
		}
	case trial.Pulled:
		return fmt.Sprintf("something feeds %s past the pulled %s: a wire in the wrong place, or two that touch", l.From, l.Name)
	case trial.Warm:
		return fmt.Sprintf("the joint at %s", l.From)
	}
	return ""
}
