package sheets

import (
	"math"
	"strings"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

// pieces is how many clamps or ties a run wants: one at each end, and between no
// two further apart than the spacing.
func pieces(lengthM, everyM float64) int {
	const most = 1e6 // of a run and a spacing that nobody meant
	return int(min(most, roundUp(lengthM/everyM, 1))) + 1
}

// clamps is how many clamps a run wants; false where no spacing is declared.
func clamps(b *harness.Bundle) (int, bool) {
	everyM, ok := b.SI("clamp")
	if !ok || everyM <= 0 {
		return 0, false
	}
	return pieces(b.LengthM, everyM), true
}

// outsideMM is a run's diameter over its cover, up to whole mm; false where it is
// not known.
func outsideMM(b *harness.Bundle) (float64, bool) {
	mm := thickMM(b)
	if b.Cover != nil {
		kind, known := tables.Cover(b.Cover.Name)
		if !known {
			return 0, false
		}
		bore := b.Cover.BoreM * 1000
		if fit, _, ok := tables.BoreFor(mm); bore == 0 && kind.Bored && ok {
			bore = fit
		}
		mm = max(mm, bore)
		if mm > 0 {
			mm += 2 * kind.WallMM
		}
	}
	return math.Ceil(mm), thickMM(b) > 0
}

// fixings lists grommets, clamps and ties.
func (p *Pack) fixings(missing *lacks) *sheet.Table {
	t := &sheet.Table{Name: "fixings", Title: "Grommets, clamps, ties", Columns: []sheet.Column{
		{Name: "fixing", Title: "fixing"},
		{Name: "size_mm", Title: "size", Unit: "mm", Right: true},
		{Name: "quantity", Title: "pieces", Right: true},
		{Name: "for", Title: "for"},
	}, Empty: "No fixing is to be bought."}
	var all tally
	for _, b := range p.runs() {
		grommet(&all, b, missing)
	}
	for _, b := range p.runs() {
		clamped(&all, b, missing)
	}
	for _, b := range p.runs() {
		all.add(pieces(b.LengthM, tables.Constant("tie_spacing")), b.Name, "tie", "")
	}
	all.each(func(c *counted) {
		t.Rows = append(t.Rows, sheet.Cells(c.cells[0], c.cells[1], count(c.n), strings.Join(c.names, ", ")))
	})
	return t
}

// clamped adds a run's clamps.
func clamped(all *tally, b *harness.Bundle, missing *lacks) {
	size := unknown
	if mm, ok := outsideMM(b); ok {
		size = wording.Number(mm)
	}
	if n, ok := clamps(b); ok {
		all.add(n, b.Name, "clamp", size)
	} else {
		missing.say("the spacing of clamps of", b.Name)
	}
}

// grommet adds the one of a run that goes through a bulkhead. As a run's loom may
// end at it, its bore goes by the wires.
func grommet(all *tally, b *harness.Bundle, missing *lacks) {
	args, ok := b.Args("through")
	if !ok || args.Word("") == "none" {
		return
	}
	size := unknown
	if m, said := args.SI("grommet"); said {
		size = millimetres(m)
	} else if mm := thickMM(b); mm > 0 {
		size = boreFor(mm)
	} else {
		missing.say("the thickness, for want of a gauge or insulation, of", b.Name)
	}
	all.add(1, b.Name, "grommet", size)
}
