package sheets

import (
	"fmt"
	"strings"

	"hame/check/sheet"
	"hame/check/states"
	"hame/check/trial"
)

var _ = register(Maker{
	Name: "tests", Title: "Test sheet",
	Summary: "What to measure before and after first power, with the figure to expect, its band and a blank for the reading",
	Make:    tests,
})

func tests(p *Pack) *sheet.Sheet {
	plan := trial.Of(p.Facts)
	s := &sheet.Sheet{}
	s.Add(sheet.Heading{Words: "Before any power"}, beforePower(),
		sheet.Heading{Words: "Measurements, in this order"},
		sheet.Text{Words: "Write each reading beside its line, or into the same form as CSV; hame readings FILE takes that back. What each mode sets stands below the measurements."},
		testLines(plan), sheet.Heading{Words: "Modes to set"}, testModes(plan))
	for _, lack := range plan.Lacks {
		s.Add(sheet.Text{Words: "Not in this plan: " + lack + "."})
	}
	if text := needed(plan); text != "" {
		s.Add(sheet.Text{Words: text})
	}
	s.Add(sheet.Heading{Words: "After the measurements"}, afterTests(), sheet.Heading{Words: "What the bands are made of"})
	for _, words := range append(trial.Reasons, limitWords()...) {
		s.Add(small(words))
	}
	return s
}

// testLines is the form: its CSV is what readings are taken back from.
func testLines(plan *trial.Plan) *sheet.Table {
	t := &sheet.Table{Name: "tests", Empty: "nothing in this harness can be measured", Columns: []sheet.Column{
		{Name: "id", Title: "line", Small: true},
		{Name: "test", Title: "test", Program: true},
		{Name: "mode", Title: "mode", Program: true},
		{Name: "from", Title: "red probe"},
		{Name: "to", Title: "black probe"},
		{Name: "expect", Title: "expect", Right: true},
		{Name: "low", Title: "low", Program: true},
		{Name: "high", Title: "high", Program: true},
		{Title: "accept"},
		{Name: "unit", Title: "unit"},
		{Name: "reading", Title: "reading", Blank: true},
		{Name: "note", Title: "note"},
	}}
	for i, l := range plan.Lines {
		if i == 0 || headOf(plan, l) != headOf(plan, plan.Lines[i-1]) {
			t.Rows = append(t.Rows, groupOf(plan, i))
		}
		row := sheet.Cells(l.ID, string(l.Kind), l.Mode, l.From, l.To, l.ExpectText(), l.LowText(), l.HighText(), bandOf(l), l.Unit.Name, "")
		row.Cells = append(row.Cells, noteOf(l))
		row.Name = l.Name
		t.Rows = append(t.Rows, row)
	}
	return t
}

// headOf is what lines stand under: their stage, and what is set.
func headOf(plan *trial.Plan, l trial.Line) string {
	title := trial.Stages[trial.StageOf(l.Kind)].Title
	if l.Probe.Setting < 0 {
		return title
	}
	s := plan.Settings[l.Probe.Setting]
	title += ", in " + s.Name
	if s.Mode >= 0 {
		title += " (key " + s.Position.Key + ", engine " + s.Position.Engine + ")"
	}
	return title
}

// groupOf heads the lines from one on: how they are measured stands at the first
// of a stage.
func groupOf(plan *trial.Plan, line int) sheet.Row {
	l := plan.Lines[line]
	row := sheet.Row{Group: headOf(plan, l)}
	if stage := trial.StageOf(l.Kind); line == 0 || trial.StageOf(plan.Lines[line-1].Kind) != stage {
		row.Detail = trial.Stages[stage].How
	}
	return row
}

// bandOf is between what a reading must lie, in words.
func bandOf(l trial.Line) string {
	low, high := l.LowText(), l.HighText()
	switch {
	case low == "" && high == "":
		return ""
	case high == "":
		return "at least " + low
	case low == "":
		return "at most " + high
	}
	return low + ".." + high
}

// noteOf is a line's note: on paper without what its heading says already.
func noteOf(l trial.Line) sheet.Cell {
	lacks := ""
	if len(l.Needs) > 0 {
		lacks = "facts are missing"
	}
	short := l.Note
	if usual := trial.Stages[trial.StageOf(l.Kind)].Usual; usual != "" {
		short = strings.Trim(strings.Replace(l.Note, usual, "", 1), "; ")
	}
	together := func(note string) string { return strings.Trim(lacks+"; "+note, "; ") }
	return sheet.Cell{Words: together(short), Raw: together(l.Note)}
}

// testModes tells how each mode is set.
func testModes(plan *trial.Plan) *sheet.Table {
	t := &sheet.Table{Name: "modes", Columns: []sheet.Column{
		{Name: "mode", Title: "mode"},
		{Name: "key", Title: "key"},
		{Name: "engine", Title: "engine"},
		{Name: "closed", Title: "switches closed"},
		{Name: "charge_pct", Title: "battery charge", Unit: "%", Right: true},
		{Name: "set", Title: "set", Blank: true},
	}}
	for _, s := range plan.Settings {
		t.Rows = append(t.Rows, sheet.Cells(s.Name, s.Position.Key, s.Position.Engine, closedIn(s.Position), fmt.Sprintf("%.0f", 100*s.Position.Charge), ""))
	}
	return t
}

func closedIn(p states.Position) string { return list(p.Figure().Closed) }

// needed says which facts the figures that are not expected hang on.
func needed(plan *trial.Plan) string {
	seen := map[string]bool{}
	var facts []string
	for _, l := range plan.Lines {
		for _, need := range l.Needs {
			if !seen[need] {
				seen[need] = true
				facts = append(facts, need)
			}
		}
	}
	if len(facts) == 0 {
		return ""
	}
	return "Where a question mark stands, these facts are missing: " + strings.Join(facts, ", ") + "."
}
