package sheets

import (
	"hame/check/draw"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

var _ = register(Maker{
	Name: "panel", Title: "Fuse cards",
	Summary: "A card for the lid of every fuse panel and for the fuses of every place, in true size, and the same as a table",
	Make:    panel,
})

// slot is one way of a panel, or a protective device by itself.
type slot struct {
	Name   string // aux.2, feed_fuse
	Way    string // 2; of a device by itself its name
	Label  string
	Sort   string // fuse, breaker, link, spare
	Family string // blade …; the breaker's reset; a link's gauge
	Amps   float64
	Volts  float64 // 0 where it is not known
	Of     *harness.Device
}

// card is what one lid or holder has on it.
type card struct {
	Name  string // in file names
	Of    string // the panel or the place
	Title string
	Note  string // under the title
	Slots []slot
}

func panel(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	cards := p.cards()
	if len(cards) == 0 {
		s.Add(sheet.Text{Words: "No fuse or breaker is to be fitted."})
		return s
	}
	var pictures []*draw.Picture
	for _, c := range cards {
		pictures = append(pictures, cardPictures(c, p.Options.Date)...)
	}
	s.Add(
		sheet.Text{Words: "Print the cards at 100 %, cut along their frames and fix them inside the lids."},
		slotTable(cards),
		small("Colours: "+fuseColourNote()+". The number on the fuse counts, not its colour."),
		sheet.Drawing{Pictures: pictures},
	)
	return s
}

func fuseColourNote() string {
	_, blade, _ := tables.FuseColour("blade", 10)
	_, maxi, _ := tables.FuseColour("maxi", 40)
	return "blade, mini and micro by " + wording.Cited(blade) + "; maxi " + wording.Cited(maxi) + "; of other families they vary by maker"
}

// cards lists the panels that are new or that a new wire comes from, then the
// other new devices by place.
func (p *Pack) cards() []card {
	var list []card
	for _, d := range p.Harness.Devices {
		if d.Is(kinds.Protection, "panel") && (!d.Existing || touched(d)) {
			list = append(list, panelCard(d))
		}
	}
	at := map[string]int{}
	for _, d := range p.NewDevices() {
		if !d.Is(kinds.Protection, "fuse", "breaker", "link") {
			continue
		}
		place := placeOf(d)
		i, ok := at[place]
		if !ok {
			i = len(list)
			at[place] = i
			list = append(list, placeCard(d))
		}
		list[i].Slots = append(list[i].Slots, deviceSlot(d))
	}
	return list
}

func placeCard(d *harness.Device) card {
	if d.At == nil { // no name begins with a figure
		return card{Name: "0", Of: unknown, Title: "Fuses, no place said"}
	}
	return card{Name: d.At.Name, Of: d.At.Name, Title: "Fuses at " + d.At.Name}
}

func panelCard(d *harness.Device) card {
	c := card{Name: d.Name, Of: d.Name, Title: titleOf(d), Note: "at " + placeOf(d)}
	if amps, ok := d.SI("limit"); ok {
		c.Note += ", " + wording.Number(amps) + " A in all"
	}
	if amps, ok := d.SI("each"); ok {
		c.Note += ", " + wording.Number(amps) + " A at most in a way"
	}
	if d.Existing {
		c.Note += ", " + own(true)
	}
	for _, args := range d.Given("way") {
		c.Slots = append(c.Slots, waySlot(d, args))
	}
	return c
}

// titleOf is a device's label and name.
func titleOf(d *harness.Device) string {
	if label := d.Word("label"); label != "" {
		return label + " (" + d.Name + ")"
	}
	return d.Name
}

func waySlot(d *harness.Device, args kinds.Args) slot {
	amps, _ := args.SI("")
	way := args.RepeatKey()
	s := slot{Name: d.Name + "." + way, Way: way, Label: args.Word("label"), Sort: args.Word("device"), Family: d.Word("family"), Amps: amps, Of: d}
	if s.Sort == "breaker" {
		s.Family = "manual"
	}
	s.Volts = voltsOf(s)
	return s
}

func deviceSlot(d *harness.Device) slot {
	s := slot{Name: d.Name, Way: d.Name, Label: d.Word("label"), Sort: d.Kind.Name, Of: d}
	s.Amps, _ = d.SI("rating")
	switch s.Sort {
	case "fuse":
		s.Family = d.Word("family")
	case "breaker":
		s.Family = d.Word("reset")
	case "link":
		s.Family = d.Word("gauge")
	}
	s.Volts = voltsOf(s)
	return s
}

// voltsOf is the rated voltage: as declared, else that of the family.
func voltsOf(s slot) float64 {
	if v, ok := s.Of.SI("volts"); ok {
		return v
	}
	if f, ok := s.family(); ok {
		return f.Volts
	}
	return 0
}

func (s slot) family() (tables.FuseFamily, bool) {
	switch s.Sort {
	case "fuse":
		return tables.Fuse(s.Family)
	case "breaker":
		return tables.Breaker(s.Family)
	}
	return tables.FuseFamily{}, false
}

// device is what sits in the slot, without its rating: "blade fuse".
func (s slot) device() string {
	switch s.Sort {
	case "breaker":
		return "breaker, reset " + s.Family
	case "link":
		return "link of " + s.Family
	case "spare":
		return "spare"
	}
	return s.Family + " fuse"
}

// colour is the word for the fuse's colour, "" where none is fixed.
func (s slot) colour() string {
	if s.Sort != "fuse" {
		return ""
	}
	word, _, _ := tables.FuseColour(s.Family, s.Amps)
	return word
}

// amps is the rating in words.
func (s slot) amps() string {
	switch {
	case s.Sort == "link" || s.Sort == "spare":
		return ""
	case s.Amps == 0:
		return unknown
	}
	return wording.Number(s.Amps)
}

// volts is the rated voltage in words.
func (s slot) volts() string {
	switch {
	case s.Sort == "link" || s.Sort == "spare":
		return ""
	case s.Volts == 0:
		return unknown
	}
	return wording.Number(s.Volts)
}

func slotTable(cards []card) *sheet.Table {
	t := &sheet.Table{Name: "fuses", Title: "Fuses and breakers", Columns: []sheet.Column{
		{Name: "card", Title: "panel or place"},
		{Name: "way", Title: "way"},
		{Name: "label", Title: "for"},
		{Name: "device", Title: "device"},
		{Name: "rating_a", Title: "rating", Unit: "A", Right: true},
		{Name: "colour", Title: "colour"},
		{Name: "volts_v", Title: "rated", Unit: "V", Right: true},
	}}
	for _, c := range cards {
		for _, s := range c.Slots {
			row := sheet.Cells(c.Of, s.Way, s.Label, s.device(), s.amps(), s.colour(), s.volts())
			row.Cells[4].Strong = true
			row.Name = s.Name
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}
