package sheets

import (
	"fmt"
	"strings"

	"hame/check/sheet"
	"hame/check/states"
	"hame/check/trial"
)

var testsMaker = register(Maker{
	Name: "tests", Title: "Test sheet",
	Summary: "What to measure before and after first power, with the figure to expect, its band and a blank for the reading",
	Make:    tests,
})

func tests(p *Pack) *sheet.Sheet {
	plan := trial.Of(p.Facts)
	s := &sheet.Sheet{}
	s.Add(sheet.Heading{Words: "Before any power"}, beforePower(),
		sheet.Heading{Words: "Measurements, in this order"},
		sheet.Text{Words: "Bench lines (continuity, isolation): no power, and modules, lamps, coils and diodes unplugged. Then polarity, key-off draw, volts, drops, fuses pulled one at a time, charge, warmth. A line of one part is measured where the way that it lies on is out. hame readings FILE takes the filled-in form back."},
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
		{Name: "id", Title: "line"},
		{Name: "test", Title: "test"},
		{Name: "mode", Title: "mode"},
		{Name: "from", Title: "red probe"},
		{Name: "to", Title: "black probe"},
		{Name: "expect", Title: "expect", Right: true},
		{Name: "low", Title: "low", Right: true},
		{Name: "high", Title: "high", Right: true},
		{Name: "unit", Title: "unit"},
		{Name: "reading", Title: "reading", Blank: true},
		{Name: "note", Title: "note"},
	}}
	for _, l := range plan.Lines {
		note := l.Note
		if len(l.Needs) > 0 {
			note = strings.Join(append([]string{"facts are missing"}, note), "; ")
			note = strings.TrimSuffix(note, "; ")
		}
		row := sheet.Cells(l.ID, string(l.Kind), l.Mode, l.From, l.To, l.ExpectText(), l.LowText(), l.HighText(), l.Unit.Name, "", note)
		row.Name = l.Name
		t.Rows = append(t.Rows, row)
	}
	return t
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
