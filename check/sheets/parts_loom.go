package sheets

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// plugs is how many cavities of a sealed connector stay empty.
func plugs(d *harness.Device) int {
	if !d.Is(kinds.Join, "connector") || !waterproof(d) {
		return 0
	}
	n := 0
	for _, t := range d.Terminals {
		if len(t.Wires) == 0 {
			n++
		}
	}
	return n
}

// covered is a run or a wire in its cover.
type covered struct {
	name    string
	cover   *harness.Cover
	thickMM float64 // over the wires; 0 where it is not known
	lengthM float64 // 0 where it is not known
}

// runs lists the new bundles that a new wire lies in.
func (p *Pack) runs() []*harness.Bundle {
	var list []*harness.Bundle
	for _, b := range p.Harness.Bundles {
		if !b.Existing && slices.ContainsFunc(b.Members, func(w *harness.Wire) bool { return !w.Existing }) {
			list = append(list, b)
		}
	}
	return list
}

// thickMM is a run's thickness over its wires; 0 where one of them is not known.
func thickMM(b *harness.Bundle) float64 {
	for _, w := range b.Members {
		if _, ok := w.OutsideDiameterMM(); !ok {
			return 0
		}
	}
	return b.DiameterMM
}

// coverings lists what is covered: runs, then wires with a cover of their own.
func (p *Pack) coverings() []covered {
	var list []covered
	for _, b := range p.runs() {
		if b.Cover != nil && b.Cover.Name != "" {
			list = append(list, covered{b.Name, b.Cover, thickMM(b), b.LengthM})
		}
	}
	for _, w := range p.NewWires() {
		if w.Cover == nil || w.Cover.Name == "" {
			continue
		}
		mm, _ := w.OutsideDiameterMM()
		c := covered{name: w.Name, cover: w.Cover, thickMM: mm}
		if m, ok := p.CutM(w); ok {
			c.lengthM = m
		}
		list = append(list, c)
	}
	return list
}

// bore is the cover's bore in mm in words: as declared, else the least that takes
// the wires; of a cover that comes in no bores what it goes over.
func (c covered) bore(missing *lacks) string {
	kind, _ := tables.Cover(c.cover.Name)
	switch {
	case c.cover.BoreM > 0:
		return millimetres(c.cover.BoreM)
	case c.thickMM == 0:
		missing.say("the thickness, for want of a gauge or insulation, of", c.name)
		return unknown
	case !kind.Bored:
		return "over " + oneDecimal(c.thickMM)
	}
	return boreFor(c.thickMM)
}

func boreFor(thickMM float64) string {
	bore, _, ok := tables.BoreFor(thickMM)
	if !ok {
		return "none takes " + oneDecimal(thickMM)
	}
	return wording.Number(bore)
}

func oneDecimal(mm float64) string { return strconv.FormatFloat(mm, 'f', 1, 64) }

// loomParts lists covers by kind and bore, with their metres.
func (p *Pack) loomParts(missing *lacks) *sheet.Table {
	t := &sheet.Table{Name: "loom", Title: "Loom and sleeves", Columns: []sheet.Column{
		{Name: "cover", Title: "cover"},
		{Name: "bore_mm", Title: "bore", Unit: "mm", Right: true},
		{Name: "length_m", Title: "length", Unit: "m", Right: true},
		{Name: "for", Title: "for"},
	}, Empty: "No loom is to be bought."}
	var all tally
	lengthM, short := map[*counted]float64{}, map[*counted]bool{}
	for _, c := range p.coverings() {
		line := all.add(1, c.name, c.cover.Name, c.bore(missing))
		lengthM[line] += c.lengthM
		if c.lengthM == 0 {
			short[line] = true
			missing.say("the length of", c.name)
		}
	}
	all.each(func(c *counted) {
		length := sheet.Is(metres(lengthM[c]))
		if short[c] {
			length = sheet.Cell{Words: "at least " + length.Words, Raw: length.Words}
		}
		t.Rows = append(t.Rows, sheet.Row{Cells: []sheet.Cell{sheet.Is(c.cells[0]), sheet.Is(c.cells[1]), length, sheet.Is(strings.Join(c.names, ", "))}})
	})
	return t
}

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
	ties, names := 0, []string{}
	for _, b := range p.runs() {
		ties += pieces(b.LengthM, tables.Constant("tie_spacing"))
		names = append(names, b.Name)
	}
	all.each(func(c *counted) {
		t.Rows = append(t.Rows, sheet.Cells(c.cells[0], c.cells[1], count(c.n), strings.Join(c.names, ", ")))
	})
	if ties > 0 {
		t.Rows = append(t.Rows, sheet.Cells("tie", "", count(ties), strings.Join(names, ", ")))
	}
	return t
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
