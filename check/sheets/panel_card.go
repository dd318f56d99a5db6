package sheets

import (
	"fmt"

	"hame/check/draw"
)

// A card, in mm.
const (
	cardWide   = 100.0
	cardEdge   = 3.0
	cardHead   = 19.0
	cardRow    = 6.0
	cardFoot   = 13.0
	cardSlots  = 18 // of one card; more go on a further one
	cardOutMM  = 1.0
	cardThinMM = 0.2
	cardLineMM = 0.4
)

// Where the columns of a card begin, in mm, and the type sizes.
const (
	wayAt, forAt, ampsAt, colourAt = cardEdge, 15.0, 72.0, 75.0

	titleSize, rowSize, noteSize = 4.6, 3.6, 2.6
)

// cardPictures draws a card, on several where it has many ways.
func cardPictures(c card, date string) []*draw.Picture {
	var list []*draw.Picture
	cards := max(1, (len(c.Slots)+cardSlots-1)/cardSlots)
	for n := range cards {
		part := c.Slots[n*cardSlots : min(len(c.Slots), (n+1)*cardSlots)]
		name, title := "card_"+c.Name, c.Title
		if cards > 1 { // no name of the harness begins with a figure
			name, title = fmt.Sprintf("card%d_%s", n+1, c.Name), fmt.Sprintf("%s, card %d of %d", c.Title, n+1, cards)
		}
		list = append(list, drawCard(name, title, c, part, date))
	}
	return list
}

func drawCard(name, title string, c card, slots []slot, date string) *draw.Picture {
	p := &draw.Picture{
		Name: name, Title: title, TrueSize: true,
		Describe: fmt.Sprintf("The card of %s with %d ways; the table of the sheet has the same.", c.Title, len(slots)),
		WidthMM:  cardWide + 2*cardOutMM, HeightMM: cardHead + cardRow*float64(len(slots)) + cardFoot + 2*cardOutMM,
	}
	var items []draw.Item
	items = append(items, cardTop(title, c, slots)...)
	y := cardHead
	for _, s := range slots {
		items = append(items, slotItems(s, y, alike(slots) == "")...)
		y += cardRow
	}
	items = append(items, cardBottom(y, date)...)
	items = append(items, draw.Box{Right: cardWide, Bottom: y + cardFoot}.Frame(draw.Ink{WidthMM: cardLineMM, Colour: draw.Black}))
	for _, i := range items {
		p.Add(draw.Moved(i, cardOutMM, cardOutMM))
	}
	return p
}

func rule(y float64, wide float64) draw.Line {
	return draw.Line{Points: []draw.Point{{X: 0, Y: y}, {X: cardWide, Y: y}}, Ink: draw.Ink{WidthMM: wide, Colour: draw.Black}}
}

func cardTop(title string, c card, slots []slot) []draw.Item {
	const room = cardWide - 2*cardEdge
	heads := [2]string{"way", "for"}
	if len(slots) > 0 && slots[0].Way == slots[0].Name {
		heads = [2]string{"device", ""}
	}
	return []draw.Item{
		words(wayAt, 6, title, titleSize, true, room),
		words(wayAt, 10, joined([]string{c.Note, alike(slots)}), noteSize, false, room),
		words(wayAt, 17, heads[0], noteSize, false, room),
		words(forAt, 17, heads[1], noteSize, false, room),
		draw.Text{At: draw.Point{X: ampsAt, Y: 17}, Words: "A", SizeMM: noteSize, Anchor: draw.End, Colour: draw.Black},
		words(colourAt, 17, "kind, colour", noteSize, false, room),
		rule(cardHead, cardLineMM),
	}
}

// alike names the volts of all devices, where they have the same.
func alike(slots []slot) string {
	volts := ""
	for _, s := range slots {
		switch v := s.volts(); {
		case v == "" || v == volts:
		case volts == "":
			volts = v
		default:
			return ""
		}
	}
	if volts == "" {
		return ""
	}
	return "rated " + volts + " V"
}

// slotItems is a row of a card; it names the volts where they are not those of
// all.
func slotItems(s slot, y float64, volts bool) []draw.Item {
	base := y + cardRow - 1.8
	way, label := s.Way, s.Label
	if s.Way == s.Name { // a device by itself: its name is as long as it likes
		way, label = "", s.Name
		if s.Label != "" {
			label = s.Label + " (" + s.Name + ")"
		}
	}
	if s.Sort == "spare" && label == "" {
		label = "spare"
	}
	from := forAt
	if way == "" {
		from = wayAt
	}
	return []draw.Item{
		words(wayAt, base, way, rowSize, true, forAt-wayAt-1),
		words(from, base, label, rowSize, false, ampsAt-from-10),
		draw.Text{At: draw.Point{X: ampsAt, Y: base}, Words: s.amps(), SizeMM: rowSize + 0.8, Bold: true, Anchor: draw.End, Colour: draw.Black},
		words(colourAt, base, s.short(volts), noteSize, false, cardWide-colourAt-1),
		rule(y+cardRow, cardThinMM),
	}
}

// short is device and colour as they fit on a card.
func (s slot) short(volts bool) string {
	if s.Sort == "spare" {
		return ""
	}
	parts := []string{s.device()}
	if s.Sort == "fuse" {
		parts = []string{s.Family, s.colour()}
	}
	if v := s.volts(); volts && v != "" {
		parts = append(parts, v+" V")
	}
	return joined(parts)
}

func cardBottom(y float64, date string) []draw.Item {
	day := "Date ____________________"
	if date != "" {
		day = "Date " + date
	}
	return []draw.Item{
		words(wayAt, y+5.5, "NEVER LARGER than printed. Find the cause first.", 3, true, cardWide-2*cardEdge),
		words(wayAt, y+10.5, day, noteSize+0.4, false, 50),
		words(55, y+10.5, "Check the wire before any change.", noteSize, false, cardWide-55-cardEdge),
	}
}
