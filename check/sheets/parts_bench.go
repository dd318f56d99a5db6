package sheets

import (
	"cmp"
	"slices"
	"strings"

	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// compareFuses orders by family, then rating.
func compareFuses(a, b slot) int {
	return cmp.Or(strings.Compare(a.device(), b.device()), cmp.Compare(a.Amps, b.Amps), cmp.Compare(a.Volts, b.Volts))
}

// contactForms are bought for their connectors.
var contactForms = []string{"pin", "socket"}

// terminalParts lists what is crimped on, but for connectors' contacts.
func terminalParts(crimps []*crimp) *sheet.Table {
	t := &sheet.Table{Name: "terminals", Title: "Terminals", Columns: []sheet.Column{
		{Name: "terminal", Title: "terminal"},
		{Name: "takes", Title: "takes"},
		{Name: "holds", Title: "holds"},
		{Name: "quantity", Title: "pieces", Right: true},
	}, Empty: "No terminal is to be bought."}
	var all tally
	for _, c := range crimps {
		if form := c.form(); !slices.Contains(contactForms, form) && form != "bare" {
			all.add(1, "", joined([]string{hardware(c.end()), partOfSplice(c)}), c.takes(), c.holds())
		}
	}
	all.sorted().each(func(c *counted) {
		t.Rows = append(t.Rows, sheet.Cells(append(slices.Clone(c.cells), count(c.n))...))
	})
	return t
}

// partOfSplice is the part number of the splice that a barrel is.
func partOfSplice(c *crimp) string {
	if t := c.end().Terminal; t != nil && t.Device.Is(kinds.Join, "splice") {
		return t.Device.Word("part")
	}
	return ""
}

// contactParts lists pins and sockets by connector, gender and gauge.
func contactParts(crimps []*crimp) *sheet.Table {
	t := &sheet.Table{Name: "contacts", Title: "Contacts of connectors", Columns: []sheet.Column{
		{Name: "connector", Title: "connector"},
		{Name: "contact", Title: "contact"},
		{Name: "takes", Title: "takes"},
		{Name: "holds", Title: "holds"},
		{Name: "quantity", Title: "pieces", Right: true},
	}, Empty: "No contact is to be bought."}
	var all tally
	for _, c := range crimps {
		if slices.Contains(contactForms, c.form()) {
			all.add(1, "", landing(c), c.form(), c.takes(), c.holds())
		}
	}
	all.each(func(c *counted) {
		t.Rows = append(t.Rows, sheet.Cells(append(slices.Clone(c.cells), count(c.n))...))
	})
	return t
}

// landing is the device that a crimp lands on.
func landing(c *crimp) string {
	if t := c.end().Terminal; t != nil {
		return t.Device.Name
	}
	return unknown
}

// sealParts lists wire seals by diameter, cavity plugs by connector, and sleeves
// of sealed splices.
func (p *Pack) sealParts(crimps []*crimp) *sheet.Table {
	t := &sheet.Table{Name: "seals", Title: "Seals", Columns: []sheet.Column{
		{Name: "of", Title: "of"},
		{Name: "seal", Title: "seal"},
		{Name: "quantity", Title: "pieces", Right: true},
	}, Empty: "No seal is to be bought."}
	var all tally
	for _, c := range crimps {
		sealed(&all, c)
	}
	for _, d := range p.NewDevices() {
		if n := plugs(d); n > 0 {
			all.add(n, "", d.Name, "cavity plug")
		}
	}
	all.each(func(c *counted) {
		t.Rows = append(t.Rows, sheet.Cells(append(slices.Clone(c.cells), count(c.n))...))
	})
	return t
}

// sealed adds the seals of what lies in a barrel: one for each wire into a
// connector, one sleeve over a splice or over a butt at a pigtail.
func sealed(all *tally, c *crimp) {
	t := c.end().Terminal
	if t == nil {
		return
	}
	if _, ok := c.pigtail(); ok {
		if s := seal(c.Ends[0]); s != "" {
			all.add(1, "", "butts at devices' leads", s)
		}
		return
	}
	switch {
	case !waterproof(t.Device):
	case t.Device.Is(kinds.Join, "connector"):
		for _, e := range c.Ends {
			all.add(1, "", t.Device.Name, seal(e))
		}
	case t.Device.Is(kinds.Join, "splice") && !t.Device.Existing:
		all.add(1, "", t.Device.Name, seal(c.Ends[0]))
	}
}

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
