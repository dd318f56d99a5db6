package sheets

import (
	"math"
	"strings"

	"hame/check/facts"
	"hame/check/figures"
	"hame/check/network"
	"hame/check/rules"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/finding"
)

func (w *protectWork) shorts() *sheet.Table {
	return w.table("shorts", []sheet.Column{
		{Name: "far_wire", Title: "far end of"},
		{Name: "least_a", Title: "least short", Unit: "A", Right: true},
		{Name: "opens_s", Title: "opens within", Unit: "s", Right: true},
		{Name: "stands_s", Title: "wire stands", Unit: "s", Right: true},
		{Name: "in_time", Title: "in time"},
		{Name: "greatest_a", Title: "greatest short", Unit: "A", Right: true},
		{Name: "breaks_a", Title: "it can break", Unit: "A", Right: true},
		{Name: "breaks", Title: "breaks it"},
	}, func(i int, d *network.Device) []sheet.Cell {
		return append(w.raceCells(d), w.breakingCells(i, d)...)
	})
}

func (w *protectWork) raceCells(d *network.Device) []sheet.Cell {
	r, ok := w.races[d]
	if !ok {
		words := "no wire that it opens for"
		if _, waits := w.lacks[d]; waits {
			words = unknown
		}
		return []sheet.Cell{sheet.Is(words), {}, {}, {}, {}}
	}
	verdict := sheet.Cell{Words: "NO", Strong: true}
	if r.Protected {
		verdict = sheet.Is("yes")
	}
	return []sheet.Cell{sheet.Is(r.Wire.Name), figure(r.Amps), seconds(r.OpensS, "never"), seconds(r.WithstandS, "for ever"), verdict}
}

// seconds is a time, or the word for one without end.
func seconds(s float64, endless string) sheet.Cell {
	if math.IsInf(s, 1) {
		return sheet.Is(endless)
	}
	c := figure(s)
	c.Words = wording.To(2, s)
	return c
}

func (w *protectWork) breakingCells(i int, d *network.Device) []sheet.Cell {
	b, fed := w.asked.Breaking(i)
	switch {
	case d.Sort == "link":
		return []sheet.Cell{figureOr(b.ProspectiveA), sheet.Is("a link has none"), {}}
	case !fed:
		return []sheet.Cell{{}, {}, sheet.Is("no source feeds it")}
	}
	return []sheet.Cell{figureOr(b.ProspectiveA), figureOr(b.CanA), breaksIt(b)}
}

// breaksIt is what the rule says of a short right behind a device.
func breaksIt(b rules.Breaking) sheet.Cell {
	switch {
	case b.ProspectiveA == nil || b.CanA == nil:
		return sheet.Is(unknown)
	case *b.ProspectiveA <= *b.CanA:
		return sheet.Is("yes")
	case b.Borrowed:
		return sheet.Is("no; the machine's own, not judged")
	case b.Tolerated:
		return sheet.Is("no; on 12 V taken for a warning")
	}
	return sheet.Cell{Words: "NO", Strong: true}
}

// sources lists by what the figures come about, once for all devices of which
// it's the same.
func (w *protectWork) sources() *sheet.Table {
	t := &sheet.Table{Name: "sources", Columns: []sheet.Column{
		{Name: "gates", Title: "opening times by"},
		{Name: "breaking", Title: "breaking capacity by"},
		{Name: "prospective", Title: "greatest short by"},
		{Name: "devices", Title: "devices"},
	}}
	of := map[[3]string]int{}
	for _, i := range w.elements {
		key := w.sourced(i)
		k, met := of[key]
		if !met {
			k = len(t.Rows)
			of[key] = k
			t.Rows = append(t.Rows, sheet.Cells(key[0], key[1], key[2], ""))
		}
		devices := &t.Rows[k].Cells[3]
		devices.Words = strings.TrimPrefix(devices.Words+", "+w.fuse(i).Name, ", ")
	}
	return t
}

func (w *protectWork) sourced(i int) [3]string {
	d := w.fuse(i)
	t, family, ok := facts.OpeningTimes(d, d.RatingA)
	times := unknown
	if ok {
		times = wording.Cited(t.Source())
		if family.GatesStandIn {
			times += "; the nearest family's gates stand in"
		}
	}
	b, _ := w.asked.Breaking(i)
	if b.Lacks != nil {
		b.How = "not known"
	}
	if d.Sort == "link" {
		b.By = "a link has none"
	} else if b.CanA == nil {
		b.By = "not known"
	}
	return [3]string{times, b.By, b.How}
}

// missing notes the facts that blanks and question marks wait for.
func (w *protectWork) missing(l *lacks) {
	note := func(n finding.Need) { l.say("`"+n.Setting+"` of", n.Name) }
	for _, i := range w.elements {
		if n, waits := w.lacks[w.fuse(i)]; waits {
			note(n)
		}
		if b, fed := w.asked.Breaking(i); fed && b.Lacks != nil {
			note(*b.Lacks)
		} else if fed && b.CanA == nil && w.fuse(i).Sort != "link" {
			l.say("`breaks` of", w.fuse(i).Of.Name)
		}
	}
	for _, wire := range w.Harness.Wires {
		if fw := w.Facts.Wire(wire); fw.Side == figures.Feed && fw.Ampacity == nil {
			l.say("gauge, insulation or an ambient of", wire.Name)
		}
	}
}
