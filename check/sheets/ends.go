package sheets

import (
	"math"
	"slices"
	"strings"

	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(Maker{
	Name: "ends", Title: "Crimps and seals",
	Summary: "What is put on every end of every wire, what it must hold, and how tight it is drawn",
	Make:    ends,
})

func ends(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	var missing lacks
	s.Add(
		sheet.Text{Words: "A row for each end. The wires in the column \"with\" share its barrel: strip and crimp them together, and pull each by itself."},
		p.crimpTable(&missing),
		p.pullTable(),
	)
	s.Add(small("Least pull of an end: " + pullBy.Title + "."))
	s.Add(pullNotes()...)
	s.Add(small(stripNote))
	if p.leads() {
		s.Add(small("A butt at a device's own lead: the wire goes into one side and the lead into the other, each pulled by its own gauge. A sealing sleeve is adhesive-lined, on the connector or over it (" + practised + ")."))
	}
	if p.torques() {
		s.Add(small("Torque is a guide from memory for a plain steel stud: the maker's figure first; not for brass, lead or plastic."))
	}
	missing.into(s)
	return s
}

var crimpColumns = []sheet.Column{
	{Name: "wire", Title: "wire"},
	{Name: "lands_on", Title: "lands on"},
	{Name: "place", Title: "at"},
	{Name: "gauge", Title: "gauge"},
	{Name: "hardware", Title: "terminal"},
	{Name: "takes", Title: "takes"},
	{Name: "shares_with", Title: "with"},
	{Name: "seal", Title: "seal"},
	{Name: "strip_mm", Title: "strip", Unit: "mm", Right: true},
	{Name: "least_pull_n", Title: "least pull", Unit: "N", Right: true},
	{Name: "pull_table", Title: "by", Program: true},
	{Name: "torque_nm", Title: "torque", Unit: "N m"},
}

// crimpTable has a row for each end, in the order of the text, those of one
// barrel together.
func (p *Pack) crimpTable(missing *lacks) *sheet.Table {
	t := &sheet.Table{Name: "ends", Columns: crimpColumns, Empty: "No wire is to be made."}
	for _, c := range p.crimps() {
		for _, e := range c.Ends {
			missing.fitted(e.Wire, e.end())
			missing.sized(e.Wire)
			t.Rows = append(t.Rows, c.row(e, missing))
		}
	}
	return t
}

func (c *crimp) row(e wireEnd, missing *lacks) sheet.Row {
	end := e.end()
	pull, by := pullCells(c, e.Wire)
	if c.form() == "bare" {
		missing.say("the strip length that the clamp wants, of", end.Name())
	}
	return sheet.Row{Name: e.Wire.Name, Cells: []sheet.Cell{
		{Words: e.Wire.Name, Strong: true},
		sheet.Is(end.Name()), sheet.Is(placeOfEnd(end)), sheet.Is(gauge(e.Wire)),
		{Words: hardware(end), Strong: true},
		sheet.Is(c.takes()), sheet.Is(strings.Join(c.others(e), ", ")), sheet.Is(seal(e)),
		sheet.Is(strip(c)), pull, by, sheet.Is(torque(end)),
	}}
}

// others names the wires that share the barrel with an end.
func (c *crimp) others(e wireEnd) []string {
	var names []string
	for _, o := range c.Ends {
		if o != e {
			names = append(names, o.Wire.Name)
		}
	}
	for _, w := range c.Own {
		names = append(names, w.Name+" ("+own(true)+")")
	}
	return names
}

// seal is what keeps water out at an end.
func seal(e wireEnd) string {
	end := e.end()
	switch {
	case end.Terminal == nil:
		return ""
	case end.Terminal.Fitting.Form == kinds.Pigtail:
		return leadSeal(end)
	case !waterproof(end.Terminal.Device):
		return ""
	case end.Terminal.Device.Is(kinds.Join, "connector"):
		return "wire seal " + diameter(e.Wire) + " mm"
	case end.Terminal.Device.Is(kinds.Join, "splice"):
		return sealingSleeve
	}
	return "as its " + protectionCode(end.Terminal.Device)
}

// leadSeal is what goes over a butt connector at a device's own lead, outside its
// seals: where the device is sealed or sits in the wet, an adhesive-lined sleeve
// (common practice, no source).
func leadSeal(e harness.End) string {
	d := e.Terminal.Device
	wet := d.At != nil && d.At.Zone != nil && (d.At.Zone.Exposed["wet"] || d.At.Zone.Exposed["splash"])
	if e.Hardware == "butt" && (wet || waterproof(d)) {
		return sealingSleeve
	}
	return ""
}

const sealingSleeve = "sealing sleeve"

// torque is a guide for a ring on a stud that may be of steel. A battery's post
// is of lead or stands in it.
func torque(e harness.End) string {
	s, ok := stud(e)
	switch {
	case !strings.HasPrefix(e.Hardware, "ring"):
		return ""
	case !ok || math.IsNaN(s.TorqueLow) || e.Terminal == nil || e.Terminal.Device.Is(kinds.Supply, "battery"):
		return "maker's"
	}
	return spread(s.TorqueLow, s.TorqueHigh)
}

// leads reports whether any wire is joined to a device's own lead.
func (p *Pack) leads() bool {
	return slices.ContainsFunc(p.crimps(), func(c *crimp) bool { _, ok := c.pigtail(); return ok })
}

// torques reports whether any end has a guide.
func (p *Pack) torques() bool {
	for _, c := range p.crimps() {
		if torque(c.end()) != "" {
			return true
		}
	}
	return false
}
