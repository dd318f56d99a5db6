package page

import (
	"fmt"

	"hame/check/draw"
	"hame/check/draw/board"
	"hame/check/draw/wiring"
	"hame/check/sheet"
	"hame/check/sheets"
	"hame/lang/finding"
)

// What the page calls itself, and the sheet that stands first on it.
const (
	Name    = "look"
	Title   = "Drawings and findings"
	Purpose = "The harness at a glance: pick a mode to see what is live, point at a wire or device for its figures, follow a finding to its place."
)

// look is the sheet that stands first: the drawings, and what was found.
func look(p *sheets.Pack) *sheet.Sheet {
	s := &sheet.Sheet{Name: Name, Title: Title, Purpose: Purpose}
	s.Add(sheet.Drawing{Pictures: pictures(p)}, findings(p))
	return s
}

func pictures(p *sheets.Pack) []*draw.Picture {
	verdict := p.Head().Verdict()
	return append(wiring.Pictures(p.Run, wiring.Options{Verdict: verdict}), board.Pictures(p.Harness, board.Options{Verdict: verdict})...)
}

// gravest first, as a reader wants them.
var gravest = []finding.Severity{finding.Error, finding.Open, finding.Warning, finding.Advice}

// findings lists what was found, the gravest first, what is allowed last.
func findings(p *sheets.Pack) *sheet.Table {
	t := &sheet.Table{
		Name: "findings", Title: "Findings", Empty: fmt.Sprintf("no finding under practice %s", p.Harness.Practice),
		Columns: []sheet.Column{
			{Name: "subject", Title: "about"},
			{Name: "severity", Title: "severity"},
			{Name: "place", Title: "place"},
			{Name: "message", Title: "what was found"},
			{Name: "rule", Title: "rule"},
		},
	}
	for _, severity := range gravest {
		for _, f := range p.Run.Findings {
			if f.Severity == severity && f.Allowed == nil {
				t.Rows = append(t.Rows, row(p, f, severity.String()))
			}
		}
	}
	for _, f := range p.Run.Findings {
		if f.Allowed != nil {
			t.Rows = append(t.Rows, row(p, f, "allowed: "+f.Allowed.Because))
		}
	}
	return t
}

func row(p *sheets.Pack, f finding.Finding, severity string) sheet.Row {
	place := ""
	if !f.At.IsZero() {
		place = fmt.Sprintf("%s:%d", p.FileName(f.At.File.Name), f.At.File.Position(f.At.Start).Line)
	}
	subject := f.Subject
	if subject == "" {
		subject = "the file"
	}
	r := sheet.Cells(subject, severity, place, f.Message, f.Rule)
	r.Name = f.Subject
	return r
}
