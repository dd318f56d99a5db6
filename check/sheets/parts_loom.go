package sheets

import (
	"slices"
	"strconv"
	"strings"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

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
