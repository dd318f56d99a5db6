package sheets

import (
	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/tables"
)

// reel is the wire of one gauge, insulation and colour.
type reel struct {
	Sample  *harness.Wire
	Pieces  int
	Unknown int     // pieces whose length is not known
	CutM    float64 // of the others
}

// buyM is what to buy: with the waste, to a tenth of a metre.
func (r *reel) buyM() float64 { return roundUp(r.CutM*(1+tables.Constant("wire_waste")), 0.1) }

// reels sums up the cut list, in its order.
func (p *Pack) reels() []*reel {
	type key struct{ gauge, insulation, colour string }
	of := map[key]*reel{}
	var list []*reel
	for _, w := range p.cutting() {
		k := key{gauge(w), insulation(w), colour(w)}
		r := of[k]
		if r == nil {
			r = &reel{Sample: w}
			of[k] = r
			list = append(list, r)
		}
		r.Pieces++
		if m, ok := p.CutM(w); ok {
			r.CutM += m
		} else {
			r.Unknown++
		}
	}
	return list
}

func reelTable(reels []*reel) *sheet.Table {
	t := &sheet.Table{Name: "reels", Title: "From the reels", Columns: []sheet.Column{
		{Name: "gauge", Title: "gauge"},
		{Name: "insulation", Title: "insulation"},
		{Name: "colour", Title: "colour"},
		{Name: "pieces", Title: "pieces", Right: true},
		{Name: "pieces_without_length", Title: "without length", Right: true},
		{Name: "cut_m", Title: "cut", Unit: "m", Right: true},
		{Name: "buy_m", Title: "buy", Unit: "m", Right: true},
	}, Empty: "No wire is to be bought."}
	var sum reel
	buyM := 0.0
	for _, r := range reels {
		t.Rows = append(t.Rows, reelRow(r, r.buyM(), sheet.Is(gauge(r.Sample)), sheet.Is(insulation(r.Sample)), colourCell(r.Sample)))
		sum.Pieces, sum.Unknown, sum.CutM, buyM = sum.Pieces+r.Pieces, sum.Unknown+r.Unknown, sum.CutM+r.CutM, buyM+r.buyM()
	}
	if len(reels) > 0 {
		total := reelRow(&sum, buyM, sheet.Is("all"), sheet.Cell{}, sheet.Cell{})
		total.Total = true
		t.Rows = append(t.Rows, total)
	}
	return t
}

// reelRow says "at least" where a piece has no length yet.
func reelRow(r *reel, buyM float64, of ...sheet.Cell) sheet.Row {
	cut, buy, without := sheet.Is(metres(r.CutM)), sheet.Is(metres(buyM)), ""
	if r.Unknown > 0 {
		without = count(r.Unknown)
		cut.Raw, buy.Raw = cut.Words, buy.Words
		cut.Words, buy.Words = "at least "+cut.Words, "at least "+buy.Words
	}
	return sheet.Row{Cells: append(of, sheet.Is(count(r.Pieces)), sheet.Is(without), cut, buy)}
}
