package note

import (
	"io"
	"math"
	"strconv"

	"hame/check/wording"
	"hame/lang/tables"
)

// WriteJSON writes a note for a program: one object, figures in SI with degC,
// mm2 and Ah, shares as ratios with the unit "1".
func WriteJSON(to io.Writer, version string, n *Note) error {
	return wording.JSON(to, jsonOf(version, n))
}

type jsonNote struct {
	Hame     string        `json:"hame"`
	Harness  string        `json:"harness"`
	Practice string        `json:"practice"`
	Name     string        `json:"name"`
	Kind     string        `json:"kind"`
	Title    string        `json:"title"`
	Mode     *string       `json:"mode"`
	Sections []jsonSection `json:"sections"`
}

type jsonSection struct {
	Title string     `json:"title"`
	Rows  []jsonRow  `json:"rows"`
	Table *jsonTable `json:"table"`
	Words []string   `json:"words"`
}

type jsonRow struct {
	Label  string      `json:"label"`
	Value  *float64    `json:"value"`
	Unit   string      `json:"unit,omitempty"`
	How    []jsonTerm  `json:"how,omitempty"`
	Words  string      `json:"words,omitempty"`
	Source *jsonSource `json:"source,omitempty"`
}

type jsonTerm struct {
	Op    string  `json:"op,omitempty"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

type jsonSource struct {
	Document string `json:"document"`
	Clause   string `json:"clause"`
	Mark     string `json:"mark"`
}

type jsonTable struct {
	Head    string       `json:"head"`
	Columns []jsonColumn `json:"columns"`
	Rows    []jsonLine   `json:"rows"`
}

type jsonColumn struct {
	Name string `json:"name"`
	Unit string `json:"unit,omitempty"`
}

// jsonLine has a number, a text or null in each cell.
type jsonLine struct {
	Label string `json:"label"`
	Sum   bool   `json:"sum,omitempty"`
	Cells []any  `json:"cells"`
}

func jsonOf(version string, n *Note) jsonNote {
	out := jsonNote{
		Hame: version, Harness: n.Harness, Practice: n.Practice, Name: n.Name, Kind: n.Kind, Title: n.Title,
		Sections: []jsonSection{},
	}
	if n.Mode != "" {
		out.Mode = &n.Mode
	}
	for i := range n.Sections {
		out.Sections = append(out.Sections, jsonSectionOf(&n.Sections[i]))
	}
	return out
}

func jsonSectionOf(s *Section) jsonSection {
	out := jsonSection{Title: s.Title, Rows: []jsonRow{}, Words: append([]string{}, s.Words...)}
	for _, r := range s.Rows {
		row := jsonRow{Label: r.Label, Words: r.Words, Source: jsonSourceOf(r.Source)}
		if r.Figure != nil {
			row.Value, row.Unit = finite(r.Figure.Value), unitOf(r.Figure.Unit)
		}
		for _, t := range r.How {
			row.How = append(row.How, jsonTerm{t.Op, rounded(t.Value), unitOf(t.Unit)})
		}
		out.Rows = append(out.Rows, row)
	}
	if s.Table != nil {
		out.Table = jsonTableOf(s.Table)
	}
	return out
}

func jsonSourceOf(s *tables.Source) *jsonSource {
	if s == nil {
		return nil
	}
	return &jsonSource{s.Document, s.Clause, string(s.Mark)}
}

func jsonTableOf(t *Table) *jsonTable {
	out := &jsonTable{Head: t.Head, Rows: []jsonLine{}}
	for _, c := range t.Columns {
		unit := ""
		if c.Unit != "" {
			unit = unitOf(c.Unit)
		}
		out.Columns = append(out.Columns, jsonColumn{c.Name, unit})
	}
	for _, r := range t.Rows {
		line := jsonLine{Label: r.Label, Sum: r.Sum, Cells: []any{}}
		for _, c := range r.Cells {
			line.Cells = append(line.Cells, jsonCell(c))
		}
		out.Rows = append(out.Rows, line)
	}
	return out
}

func jsonCell(c Cell) any {
	switch {
	case c.Value != nil:
		return finite(*c.Value)
	case c.Words != "":
		return c.Words
	}
	return nil
}

// unitOf is a unit as JSON has it: a bare number, and a share, is a "1".
func unitOf(unit string) string {
	if unit == "" || unit == "%" {
		return "1"
	}
	return unit
}

func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	r := rounded(v)
	return &r
}

// rounded keeps nine digits: the last bits hang on the machine.
func rounded(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 8, 64), 64)
	if err != nil || r == 0 {
		return 0
	}
	return r
}
