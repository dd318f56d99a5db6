package sheets

import (
	"fmt"
	"strings"

	"hame/check/sheet"
	"hame/check/states"
	"hame/check/wording"
)

// positions numbers the positions that a sheet speaks of, so that a column has
// room for them: P1, P2 …, in the order in which they are met.
type positions struct {
	code map[string]string
	rows []sheet.Row
}

// at is a position's number; CSV has the position itself.
func (l *positions) at(p *states.Position) sheet.Cell {
	if p == nil {
		return sheet.Is("none")
	}
	f := p.Figure()
	words := wording.Position(f)
	if l.code == nil {
		l.code = map[string]string{}
	}
	if _, met := l.code[words]; !met {
		l.code[words] = fmt.Sprintf("P%d", len(l.code)+1)
		closed := strings.Join(f.Closed, ", ")
		if closed == "" {
			closed = "all switches open"
		}
		l.rows = append(l.rows, sheet.Cells(l.code[words], f.Key, f.Engine, closed, f.Corner))
	}
	return sheet.Cell{Words: l.code[words], Raw: words}
}

// into prints what the numbers stand for.
func (l *positions) into(s *sheet.Sheet) {
	if len(l.rows) == 0 {
		return
	}
	s.Add(&sheet.Table{Name: "positions", Title: "Positions", Columns: []sheet.Column{
		{Name: "position", Title: "no."},
		{Name: "key", Title: "key"},
		{Name: "engine", Title: "engine"},
		{Name: "closed", Title: "switches that are closed"},
		{Name: "corner", Title: "battery and air"},
	}, Rows: l.rows})
}
