package sheets

import (
	"strings"

	"hame/check/report"
	"hame/check/sheet"
	"hame/lang/kinds"
)

var _ = register(Maker{
	Name: "survey", Title: "Survey sheet",
	Summary: "What must still be measured or looked up on the machine, place by place, with a blank for each",
	Make:    survey,
})

const surveyKit = "Take along: this sheet, a meter, a clamp meter that reads direct current, a test lamp, a tape, a calliper, a thermometer, a torch."

const surveyWarning = "Look and read before you touch. Never put a meter on its ampere range across a battery or a live terminal. " +
	"Measure ohms on what is dead and unplugged alone. With an ammeter in the battery's lead switch nothing on and do not crank. " +
	"Keep clear of whatever turns or is hot when you measure with the engine running."

func survey(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	facts := report.Lacks(report.Run{Files: p.Run.Files, Harness: p.Harness, Figures: p.Figures, Findings: p.Run.Findings})
	if len(facts) == 0 {
		s.Add(sheet.Text{Words: "No rule waits for a fact: there is nothing to measure or look up for this check. What is declared is taken as it stands; compare it with the machine all the same."})
		return s
	}
	s.Add(sheet.Text{Words: surveyKit}, sheet.Text{Words: surveyWarning, Weight: sheet.Warning})
	byPlace := map[string][]report.Lack{}
	for _, l := range facts {
		byPlace[l.Place] = append(byPlace[l.Place], l)
	}
	for _, at := range walk(p.Harness) {
		if len(byPlace[at.Name]) > 0 {
			s.Add(sheet.Heading{Words: "At " + placeWords(at)}, surveyTable("at_"+at.Name, byPlace[at.Name]))
		}
	}
	if len(byPlace[""]) > 0 {
		s.Add(sheet.Heading{Words: "No place is named: labels, papers, the whole machine"}, surveyTable("anywhere", byPlace[""]))
	}
	s.Add(sheet.Heading{Words: "Who measured"}, &sheet.Table{
		Name: "measured_by", Columns: []sheet.Column{
			{Name: "name", Title: "name", Blank: true}, {Name: "date", Title: "date", Blank: true}, {Name: "meter", Title: "meter", Blank: true},
		},
		Rows: []sheet.Row{sheet.Cells("", "", "")},
	})
	s.Add(small("Write the values into the harness's text and check it again: a rule that waits has judged nothing."))
	return s
}

func surveyTable(name string, facts []report.Lack) *sheet.Table {
	t := &sheet.Table{Name: name, Columns: []sheet.Column{
		{Name: "item", Title: "item"},
		{Name: "kind", Title: "what it is"},
		{Name: "setting", Title: "setting"},
		{Name: "find_out", Title: "find out"},
		{Name: "unit", Title: "unit"},
		{Name: "how", Title: "how"},
		{Name: "value", Title: "value", Blank: true},
		{Name: "waiting_rules", Title: "rules that wait"},
	}}
	for _, l := range facts {
		kind := ""
		if l.Kind != nil {
			kind = l.Kind.Title()
		}
		row := sheet.Cells(l.Need.Name, kind, l.Need.Setting, findOut(l), unitOf(l), howTo(l), "", strings.Join(l.Rules, ", "))
		row.Name = l.Need.Name
		t.Rows = append(t.Rows, row)
	}
	return t
}

// headerFacts are what a declaration's header says, and what the harness as a
// whole may lack: no settings of the table.
var headerFacts = map[string]struct{ doc, unit string }{
	"length": {"its length", "m"},
	"gauge":  {"its gauge", "mm2 or AWG"},
	"mode":   {"what is switched on together, with the key and the engine where, and for how long", "a mode"},
}

func findOut(l report.Lack) string {
	if doc := l.Doc(); doc != "" {
		return doc
	}
	return headerFacts[l.Need.Setting].doc
}

// unitOf is the unit of a fact, or the words that it may be.
func unitOf(l report.Lack) string {
	if l.Row == nil {
		return headerFacts[l.Need.Setting].unit
	}
	var forms []string
	for _, slots := range l.Row.Slots() {
		var parts []string
		for _, slot := range slots {
			parts = append(parts, slotWords(slot))
		}
		if text := strings.Join(parts, ", "); text != "" {
			forms = append(forms, text)
		}
	}
	if len(forms) == 0 {
		return "yes or no"
	}
	return strings.Join(forms, "; or ")
}

// typeWords are the types of values that are no units by themselves.
var typeWords = map[string]string{
	"gauge": "mm2 or AWG", "gauges": "mm2 or AWG, from .. to", "temps": "degC, least .. greatest", "system": "V", "share": "%",
	"count": "number", "ip": "IP code", "size": "stud size", "text": "words", "word": "name", "m": "m", "s": "s",
}

func slotWords(slot kinds.Slot) string {
	var all []string
	for _, t := range slot.Types {
		t = strings.TrimSuffix(t, "+")
		if w, ok := typeWords[t]; ok {
			t = w
		}
		all = append(all, t)
	}
	return strings.Join(append(all, slot.Words...), " or ")
}
