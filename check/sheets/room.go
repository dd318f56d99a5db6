package sheets

import (
	"strings"

	"hame/check/sheet"
)

var _ = register(Maker{
	Name: "room", Title: "Room left",
	Summary: "What can still be added: how much each part may carry, what it carries at worst, and what is left",
	Make:    roomSheet,
})

const roomRule = "A spare way is worth the least that is left anywhere on its way from the battery and back, never its own rating."

func roomSheet(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	if !p.Facts.Judged() {
		s.Add(sheet.Text{Words: "Nothing can be said of what is left: a source is shorted in every position.", Weight: sheet.Warning})
		return s
	}
	w := newRoomWork(p)
	s.Add(sheet.Text{Words: roomRule}, sheet.Heading{Words: "What a further load may draw, by way"}, w.wayTable(),
		small("Worth: lasting current of a load that starts softly; a lamp or motor asks more of a contact, a start more of a fuse. The return is taken from the first ground point at the panel's own place. At most: a part of the way has no limit that is known; it is named. Check again with the new load declared."),
		sheet.Heading{Words: "What each part carries"}, w.partTable(),
		small("May carry: by the practice or the part's own limit. Used: the greatest current of every position, for devices and wires cranking left out; at most where it is a bound, and then at least the rest is left. A contact is used by each load's current times the factor of its kind. Feeders and returns: wires that serve more than one load, or lead to what does. By the practice: "+strings.Join(w.cited, "; ")+"."),
		sheet.Heading{Words: "Rings, ways and cavities"}, w.placesTable())
	var wanted lacks
	p.undrawn(&wanted)
	for _, r := range w.rows {
		if r.capacity == nil {
			wanted.say(r.lacks+" of", r.item)
		}
	}
	wanted.into(s)
	return s
}

func (w *roomWork) partTable() *sheet.Table {
	t := &sheet.Table{Name: "parts", Empty: "Nothing carries a current.", Columns: []sheet.Column{
		{Name: "kind", Title: "part"},
		{Name: "item", Title: "name"},
		{Name: "place", Title: "place"},
		{Name: "may_carry_a", Title: "may carry", Unit: "A", Right: true},
		{Name: "used_a", Title: "used", Unit: "A", Right: true},
		{Name: "left_a", Title: "left", Unit: "A", Right: true},
		{Name: "by", Title: "by"},
		{Name: "whose", Title: "whose"},
	}}
	for _, r := range w.rows {
		t.Rows = append(t.Rows, sheet.Row{Name: r.item, Cells: []sheet.Cell{
			sheet.Is(r.kind), sheet.Is(r.item), sheet.Is(r.place), figureOr(r.capacity), r.usedCell(), r.leftCell(), sheet.Is(r.by + r.brief), sheet.Is(own(r.existing)),
		}})
	}
	return t
}

func (w *roomWork) wayTable() *sheet.Table {
	t := &sheet.Table{Name: "ways", Empty: "There is no panel.", Columns: []sheet.Column{
		{Name: "way", Title: "way"},
		{Name: "label", Title: "label"},
		{Name: "device", Title: "device"},
		{Name: "worth_a", Title: "worth", Unit: "A", Right: true},
		{Name: "binds", Title: "what binds"},
		{Name: "feed", Title: "feed, from the source"},
		{Name: "back", Title: "return"},
		{Name: "unknown", Title: "no limit known of"},
	}}
	for _, way := range w.ways() {
		t.Rows = append(t.Rows, sheet.Row{Name: way.name, Cells: []sheet.Cell{
			sheet.Is(way.name), sheet.Is(way.label), sheet.Is(way.device), way.worth(), sheet.Is(way.binding()),
			sheet.Is(strings.Join(way.feed, ", ")), sheet.Is(strings.Join(way.back, ", ")), sheet.Is(strings.Join(way.unknown, ", ")),
		}})
	}
	return t
}

// placesTable is what still lands on studs, buses and in connectors.
func (w *roomWork) placesTable() *sheet.Table {
	t := &sheet.Table{Name: "places", Empty: "There is no stud, bus or connector.", Columns: []sheet.Column{
		{Name: "item", Title: "name"},
		{Name: "kind", Title: "what it is"},
		{Name: "place", Title: "place"},
		{Name: "counts", Title: "counted"},
		{Name: "holds", Title: "holds", Right: true},
		{Name: "used", Title: "used", Right: true},
		{Name: "left", Title: "left", Right: true},
		{Name: "by", Title: "by"},
	}}
	for _, d := range w.Harness.Devices {
		if holds, used, counted, by, ok := w.landings(d); ok {
			row := sheet.Row{Name: d.Name, Cells: []sheet.Cell{
				sheet.Is(d.Name), sheet.Is(d.Kind.Title()), sheet.Is(placeOf(d)), sheet.Is(counted), sheet.Is(unknown), sheet.Is(count(used)), sheet.Is(unknown), sheet.Is(by),
			}}
			if holds > 0 {
				row.Cells[4], row.Cells[6] = sheet.Is(count(holds)), sheet.Is(count(holds-used))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}
