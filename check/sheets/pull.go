package sheets

import (
	"fmt"
	"math"
	"slices"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

// pullBy is the table that crimps are held to here: the one whose figures were
// read.
var pullBy = tables.PullTables()[0]

// unpulled are no crimps, or none that is held by itself: a cap closes an end,
// and a ferrule is held by its clamp.
var unpulled = []string{"bare", "cap", "ferrule"}

// pullCells are the least pull-out force and where it comes from.
func pullCells(c *crimp, w *harness.Wire) (force, by sheet.Cell) {
	switch {
	case slices.Contains(unpulled, c.form()):
		return sheet.Cell{}, sheet.Cell{}
	case w.AreaMM2 == 0:
		return sheet.Is(unknown), sheet.Cell{}
	}
	p, ok := tables.PullFor(pullBy.Name, w.Size)
	if !ok {
		return sheet.Is("none"), sheet.Is(pullBy.Title + " has no such gauge")
	}
	return newtons(p), sheet.Is(pullBy.Title + ", " + pullRows(p))
}

// newtons is a least force: up to the next whole newton.
func newtons(p tables.Pull) sheet.Cell {
	const dust = 1e-6
	return sheet.Cell{Words: fmt.Sprintf("%.0f", math.Ceil(p.ForceN-dust)), Raw: fmt.Sprintf("%.2f", p.ForceN)}
}

// pullRows names the rows that a force comes from.
func pullRows(p tables.Pull) string {
	if p.Thin == p.Fat {
		return tables.AWGName(p.Thin) + " AWG"
	}
	return tables.AWGName(p.Thin) + ".." + tables.AWGName(p.Fat) + " AWG"
}

// pullTable has the forces of all four tables, for each gauge of the harness.
func (p *Pack) pullTable() *sheet.Table {
	t := &sheet.Table{Name: "pulls", Title: "Least pull by all four tables", Columns: []sheet.Column{{Name: "gauge", Title: "gauge"}}, Empty: "No gauge is known."}
	for _, by := range tables.PullTables() {
		t.Columns = append(t.Columns, sheet.Column{Name: by.Name + "_n", Title: by.Title, Unit: "N", Right: true})
	}
	for _, w := range p.sizes() {
		row := sheet.Row{Cells: []sheet.Cell{sheet.Is(gauge(w))}}
		for _, by := range tables.PullTables() {
			cell := sheet.Is("none")
			if f, ok := tables.PullFor(by.Name, w.Size); ok {
				cell = newtons(f)
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// sizes has a new wire of each known gauge, thin ones first.
func (p *Pack) sizes() []*harness.Wire {
	var list []*harness.Wire
	for _, w := range p.NewWires() {
		if w.AreaMM2 > 0 {
			list = append(list, w)
		}
	}
	slices.SortStableFunc(list, thinFirst)
	return slices.CompactFunc(list, func(a, b *harness.Wire) bool { return gauge(a) == gauge(b) })
}

// pullNotes say which table is which, and how a metric wire gets its figure.
func pullNotes() []sheet.Block {
	notes := []sheet.Block{small("The tables differ up to sevenfold: a test must name its own, and the terminal maker's figure comes first. " +
		"A size that has no row, as all metric ones, takes its share by area of the step between the rows of the next thinner and the next thicker gauge: " +
		"the thinner row would pass too weak a crimp, the thicker refuse a sound one. Figures go up to whole newtons. none: the table ends before.")}
	for _, by := range tables.PullTables() {
		words := by.Title + ": " + wording.Cited(by.Source)
		if by.Doubt != "" {
			words += "; " + by.Doubt
		}
		notes = append(notes, small(words+"."))
	}
	return notes
}
