package sheets

import (
	"cmp"
	"slices"
	"strings"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(Maker{
	Name: "wires", Title: "Cut list",
	Summary: "What to cut, how long, how to strip it, and what goes on its two ends",
	Make:    wires,
})

func wires(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	var missing lacks
	s.Add(
		sheet.Text{Words: "Thin gauges first, then by insulation and colour, the longest first. The length is the cut length: the route with the slack at both ends, or the length that was declared, rounded up to steps of " + millimetres(p.Options.StepM) + " mm."},
		p.cutTable(&missing),
		p.runTable(),
		reelTable(p.reels()),
		small("To buy: the metres on the list and "+percent(tables.Constant("wire_waste"))+" for waste ("+practised+"), rounded up to a tenth of a metre."),
		small(stripNote),
	)
	missing.into(s)
	return s
}

// practised is the mark of the trade's own figures.
const practised = "common practice, no source"

const stripNote = "Strip lengths: the barrel's length and 1 mm more (" + practised + "). The terminal maker's figure comes first."

func percent(share float64) string { return wording.Number(100*share) + " %" }

// cutting lists the new wires in the order in which they are cut.
func (p *Pack) cutting() []*harness.Wire {
	list := p.NewWires()
	slices.SortStableFunc(list, func(a, b *harness.Wire) int {
		x, _ := p.CutM(a)
		y, _ := p.CutM(b)
		return cmp.Or(thinFirst(a, b), strings.Compare(insulation(a), insulation(b)), strings.Compare(colour(a), colour(b)), cmp.Compare(y, x))
	})
	return list
}

var cutColumns = []sheet.Column{
	{Name: "wire", Title: "wire"},
	{Name: "gauge", Title: "gauge"},
	{Name: "insulation", Title: "insulation"},
	{Name: "colour", Title: "colour"},
	{Name: "cut_mm", Title: "cut", Unit: "mm", Right: true},
	{Name: "strip_a_mm", Title: "strip A", Unit: "mm", Right: true},
	{Name: "hardware_a", Title: "end A"},
	{Name: "strip_b_mm", Title: "strip B", Unit: "mm", Right: true},
	{Name: "hardware_b", Title: "end B"},
	{Name: "label", Title: "label"},
}

func (p *Pack) cutTable(missing *lacks) *sheet.Table {
	t := &sheet.Table{Name: "wires", Title: "Cut and strip", Columns: cutColumns, Empty: "No wire is to be cut."}
	crimps := crimpOf(p.crimps())
	for _, w := range p.cutting() {
		missing.sized(w)
		length := sheet.Is(unknown)
		if m, ok := p.CutM(w); ok {
			length = sheet.Is(millimetres(m))
			length.Strong = true
		} else {
			missing.say("a length, or places at both ends and bundles between them, of", w.Name)
		}
		row := sheet.Row{Name: w.Name, Cells: []sheet.Cell{{Words: w.Name, Strong: true}, sheet.Is(gauge(w)), sheet.Is(insulation(w)), colourCell(w), length}}
		for n, e := range w.Ends {
			missing.fitted(w, e)
			row.Cells = append(row.Cells, sheet.Is(strip(crimps[wireEnd{w, n}])), sheet.Is(hardware(e)))
		}
		row.Cells = append(row.Cells, sheet.Is(wireLabel(w)))
		t.Rows = append(t.Rows, row)
	}
	return t
}

// wireLabel is what the wire's label says.
func wireLabel(w *harness.Wire) string {
	if label := w.Word("label"); label != "" {
		return label
	}
	return w.Name
}

func strip(c *crimp) string {
	mm, ok := c.stripMM()
	if !ok {
		return unknown
	}
	return wording.Number(mm)
}

// runTable says where the wires go, in the order in which they are cut.
func (p *Pack) runTable() *sheet.Table {
	t := &sheet.Table{Name: "runs", Title: "Where they go", Columns: []sheet.Column{
		{Name: "wire", Title: "wire"},
		{Name: "end_a", Title: "end A"},
		{Name: "place_a", Title: "at"},
		{Name: "end_b", Title: "end B"},
		{Name: "place_b", Title: "at"},
		{Name: "through", Title: "through"},
	}, Empty: "No wire is to be cut."}
	for _, w := range p.cutting() {
		var route []string
		for _, b := range w.Route {
			route = append(route, b.Name)
		}
		row := sheet.Cells(w.Name, w.Ends[0].Name(), placeOfEnd(w.Ends[0]), w.Ends[1].Name(), placeOfEnd(w.Ends[1]), strings.Join(route, ", "))
		row.Name = w.Name
		t.Rows = append(t.Rows, row)
	}
	return t
}
