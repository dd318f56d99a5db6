package sheets

import (
	"slices"
	"strings"

	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

var _ = register(Maker{
	Name: "parts", Title: "Parts list",
	Summary: "What to buy: devices, fuses, terminals, contacts, seals, wire and loom; the machine's own is left out",
	Make:    parts,
})

func parts(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	var missing lacks
	crimps := p.crimps()
	s.Add(
		p.deviceParts(),
		p.fuseParts(),
		terminalParts(crimps),
		contactParts(crimps),
		p.sealParts(crimps),
		reelTable(p.reels()),
		p.loomParts(&missing),
		p.fixings(&missing),
	)
	for _, c := range crimps {
		missing.fitted(c.Ends[0].Wire, c.end())
		for _, e := range c.Ends {
			missing.sized(e.Wire)
		}
	}
	s.Add(
		small("Spare fuses: "+percent(tables.Constant("fuse_spares"))+" of each family and rating, and at least one. Waste of wire: "+percent(tables.Constant("wire_waste"))+". Both "+practised+"."),
		small("Bores: the least nominal bore that takes the wires, where none is declared ("+practised+"). Loom is the bare length of the runs that a new wire lies in. Clamps and ties: one at each end of a run, and no two further apart than declared; ties no further than 12 in ("+tables.ConstantSource("tie_spacing").String()+")."),
	)
	for _, half := range p.ownHalves() {
		s.Add(sheet.Text{Words: half + ": all its wires are the machine's own. Buy it only if it is not there yet."})
	}
	missing.into(s)
	return s
}

// ownHalves names the halves of new connectors that only the machine's own wires
// go into.
func (p *Pack) ownHalves() []string {
	var list []string
	for _, d := range p.NewDevices() {
		if !d.Is(kinds.Join, "connector") {
			continue
		}
		for _, half := range kinds.Halves(d) {
			if wires := wiresOfHalf(d, half); len(wires) > 0 && !slices.ContainsFunc(wires, func(w *harness.Wire) bool { return !w.Existing }) {
				list = append(list, "The "+half+" half of "+d.Name)
			}
		}
	}
	return list
}

func wiresOfHalf(d *harness.Device, half string) []*harness.Wire {
	var wires []*harness.Wire
	for _, t := range d.Terminals {
		if strings.HasPrefix(t.Name, half+".") {
			wires = append(wires, t.Wires...)
		}
	}
	return wires
}

// tally counts like things in the order in which they come.
type tally struct {
	order []string
	rows  map[string]*counted
}

// counted is one line: the cells that tell it apart, how many, and what for.
type counted struct {
	cells []string
	n     int
	names []string // what it is for
}

func (t *tally) add(n int, name string, cells ...string) *counted {
	key := strings.Join(cells, "\x00")
	if t.rows == nil {
		t.rows = map[string]*counted{}
	}
	c := t.rows[key]
	if c == nil {
		c = &counted{cells: cells}
		t.rows[key] = c
		t.order = append(t.order, key)
	}
	c.n += n
	if name != "" && !slices.Contains(c.names, name) {
		c.names = append(c.names, name)
	}
	return c
}

// each calls for every line in order.
func (t *tally) each(f func(*counted)) {
	for _, key := range t.order {
		f(t.rows[key])
	}
}

// sorted orders the lines by their cells.
func (t *tally) sorted() *tally {
	slices.Sort(t.order)
	return t
}

// aside are settings that do not say which part a device is: where it is, what
// it is called, how the machine uses it.
var aside = []string{
	"at", "label", "part", "note", "covered", "existing", "standby", "meant", "critical",
	"to", "via", "way", "expects", "fitted", "case", "already", "carries",
}

// deviceParts rolls up the new devices by part number and by kind with what was
// declared of it. A splice is a barrel, and on the list of terminals.
func (p *Pack) deviceParts() *sheet.Table {
	t := &sheet.Table{Name: "devices", Title: "Devices", Columns: []sheet.Column{
		{Name: "part_number", Title: "part number"},
		{Name: "device", Title: "device"},
		{Name: "ratings", Title: "ratings"},
		{Name: "quantity", Title: "pieces", Right: true},
		{Name: "for", Title: "for"},
	}, Empty: "No device is to be bought."}
	var all tally
	for _, d := range p.NewDevices() {
		if !d.Is(kinds.Join, "splice") {
			all.add(1, d.Name, d.Word("part"), kindWords(d), ratings(d))
		}
	}
	all.each(func(c *counted) {
		t.Rows = append(t.Rows, sheet.Cells(c.cells[0], c.cells[1], c.cells[2], count(c.n), strings.Join(c.names, ", ")))
	})
	return t
}

// kindWords is a device's kind as a counter clerk knows it; a fuse's rating is
// on the list of fuses.
func kindWords(d *harness.Device) string {
	switch {
	case d.Is(kinds.Protection, "fuse"):
		return d.Word("family") + " fuse holder"
	case d.Is(kinds.Protection, "panel"):
		return "fuse panel, " + count(len(d.Given("way"))) + " ways"
	case d.Is(kinds.Protection, "link"):
		return "fusible link"
	case d.Is(kinds.Protection, "breaker"):
		return "breaker"
	case d.Is(kinds.Join, "connector"):
		return "connector, " + halvesWords(kinds.Halves(d))
	case d.Is(kinds.Ground), d.Is(kinds.Join, "stud", "bus"):
		return string(d.Kind.Family) + " " + d.Kind.Name
	}
	return d.Kind.Name
}

// halvesWords names one half, or both.
func halvesWords(halves []string) string {
	if len(halves) == 1 {
		return halves[0] + " half"
	}
	return "both halves"
}

// ratings are the declared settings that decide which part it is, in the order
// of the language's table.
func ratings(d *harness.Device) string {
	var list []string
	for _, s := range d.Kind.Settings {
		fuse := s.Name == "rating" && d.Is(kinds.Protection, "fuse") || s.Name == "family" && d.Is(kinds.Protection)
		if slices.Contains(aside, s.Name) || fuse {
			continue
		}
		for _, args := range d.Given(s.Name) {
			list = append(list, asWritten(args))
		}
	}
	return strings.Join(list, ", ")
}

// asWritten is a setting as it stands in the text, on one line.
func asWritten(args kinds.Args) string {
	text := args.File.Text[args.Start:args.End]
	if strings.Contains(text, "#") { // a list with a remark in it
		return args.Setting.Name + " " + args.Word("")
	}
	return strings.Join(strings.Fields(text), " ")
}

// fuseParts lists fuses by family and rating, with their spares; breakers of
// panels' ways are listed too, without.
func (p *Pack) fuseParts() *sheet.Table {
	t := &sheet.Table{Name: "fuses", Title: "Fuses", Columns: []sheet.Column{
		{Name: "device", Title: "fuse"},
		{Name: "rating_a", Title: "rating", Unit: "A", Right: true},
		{Name: "rated_v", Title: "rated", Unit: "V", Right: true},
		{Name: "colour", Title: "colour"},
		{Name: "fitted", Title: "fitted", Right: true},
		{Name: "spares", Title: "spare", Right: true},
		{Name: "quantity", Title: "to buy", Right: true},
	}, Empty: "No fuse is to be bought."}
	var all tally
	for _, s := range p.newFuses() {
		all.add(1, s.Name, s.device(), s.amps(), s.volts(), s.colour())
	}
	all.each(func(c *counted) {
		spare := 0
		if strings.HasSuffix(c.cells[0], " fuse") {
			spare = spares(c.n)
		}
		row := sheet.Cells(append(slices.Clone(c.cells), count(c.n), count(spare), count(c.n+spare))...)
		t.Rows = append(t.Rows, row)
	})
	return t
}

// spares is how many spare fuses go with so many fitted ones.
func spares(fitted int) int {
	return max(1, int(roundUp(float64(fitted)*tables.Constant("fuse_spares"), 1)))
}

// newFuses lists the fuses of new holders, and what is in the ways of new
// panels.
func (p *Pack) newFuses() []slot {
	var list []slot
	for _, d := range p.NewDevices() {
		switch {
		case d.Is(kinds.Protection, "fuse"):
			list = append(list, deviceSlot(d))
		case d.Is(kinds.Protection, "panel"):
			for _, args := range d.Given("way") {
				if s := waySlot(d, args); s.Sort != "spare" {
					list = append(list, s)
				}
			}
		}
	}
	slices.SortStableFunc(list, compareFuses)
	return list
}
