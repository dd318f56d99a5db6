package sheets

import (
	"slices"
	"strings"

	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(Maker{
	Name: "pins", Title: "Connectors",
	Summary: "Which wire goes into which cavity of both halves, and which half stays live when pulled apart",
	Make:    pins,
})

// halves are in the order in which they are shown.
var halves = []string{"female", "male"}

func pins(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	var missing lacks
	points := p.keyPoints()
	for _, d := range p.connectors() {
		s.Add(sheet.Heading{Words: d.Name}, sheet.Text{Words: connectorWords(d)})
		for _, half := range halves {
			if t := p.half(d, half, points, &missing); t != nil {
				s.Add(liveHalf(t, d, half)...)
				s.Add(t)
			}
		}
	}
	if len(s.Blocks) == 0 {
		s.Add(sheet.Text{Words: "No connector is to be made."})
		return s
	}
	s.Blocks = append([]sheet.Block{sheet.Text{Words: "Seen from the wire side, where the contacts are put in; the mating face has them the other way round. " +
		"A cavity is found by the number moulded beside it, never by where it stands in the table. " +
		"Halves go by their contacts: female has the sockets, male the pins."}}, s.Blocks...)
	s.Add(small("Live: what a source still leads to with the halves apart, every switch and relay counting as closed; the key positions are those in which it was found under voltage with the halves together."))
	missing.into(s)
	return s
}

// connectors are those that are new, and the machine's own that a new wire goes
// into.
func (p *Pack) connectors() []*harness.Device {
	var list []*harness.Device
	for _, d := range p.Harness.Devices {
		if d.Is(kinds.Join, "connector") && (!d.Existing || touched(d)) {
			list = append(list, d)
		}
	}
	return list
}

// touched reports whether a new wire lands on a device.
func touched(d *harness.Device) bool {
	for _, t := range d.Terminals {
		for _, w := range t.Wires {
			if !w.Existing {
				return true
			}
		}
	}
	return false
}

func connectorWords(d *harness.Device) string {
	words := []string{d.Word("label"), d.Word("part"), "at " + placeOf(d), waysOf(d)}
	if takes := d.Word("takes"); takes != "" {
		words = append(words, "takes "+takes)
	}
	if code := protectionCode(d); code != "" {
		words = append(words, "seal "+code)
	}
	for _, flag := range []string{"lock", "shrouded"} {
		if d.Has(flag) {
			words = append(words, flag)
		}
	}
	if half := d.Word("half"); half != "" {
		words = append(words, "the "+half+" half alone is ours")
	}
	return joined(append(words, own(d.Existing)))
}

// joined leaves out what is empty.
func joined(words []string) string {
	var kept []string
	for _, w := range words {
		if w != "" {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, ", ")
}

// liveHalf says what of a half stays live, before its table.
func liveHalf(t *sheet.Table, d *harness.Device, half string) []sheet.Block {
	var cavities []string
	for _, r := range t.Rows {
		c := r.Cells[0].Words
		if r.Cells[len(r.Cells)-1].Words != "" && (len(cavities) == 0 || cavities[len(cavities)-1] != c) {
			cavities = append(cavities, c)
		}
	}
	which := "cavity " + strings.Join(cavities, ", ")
	if len(cavities) > 1 {
		which = "cavities " + strings.Join(cavities, ", ")
	}
	switch {
	case len(cavities) == 0:
		return nil
	case half == "male" && !d.Has("shrouded"):
		return []sheet.Block{sheet.Text{Weight: sheet.Warning, Words: "The male half of " + d.Name + " has live pins when it is pulled apart: " + which + "."}}
	}
	return []sheet.Block{sheet.Text{Words: "This half stays live when it is pulled apart: " + which + "."}}
}

// half is the table of one half, or nil where the connector has none.
func (p *Pack) half(d *harness.Device, half string, points []keyed, missing *lacks) *sheet.Table {
	t := &sheet.Table{Name: d.Name + "_" + half, Title: d.Name + ", " + half + " half", Columns: []sheet.Column{
		{Name: "cavity", Title: "cavity", Right: true},
		{Name: "wire", Title: "wire"},
		{Name: "gauge", Title: "gauge"},
		{Name: "colour", Title: "colour"},
		{Name: "far_end", Title: "far end"},
		{Name: "function", Title: "function"},
		{Name: "filled_with", Title: "filled with"},
		{Name: "live_apart", Title: "pulled apart"},
	}}
	for _, at := range d.Terminals {
		cavity, ours := strings.CutPrefix(at.Name, half+".")
		if ours {
			t.Rows = append(t.Rows, p.cavity(at, cavity, points, missing)...)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}

func (p *Pack) cavity(at *harness.Terminal, cavity string, points []keyed, missing *lacks) []sheet.Row {
	if len(at.Wires) == 0 {
		fill := "empty"
		if waterproof(at.Device) {
			fill = "cavity plug"
		}
		return []sheet.Row{sheet.Cells(cavity, "", "", "", "", function(at.Device, cavity), fill, "")}
	}
	live := ""
	if p.liveApart(at) {
		live = p.liveKeys(at, points)
	}
	var rows []sheet.Row
	for _, e := range endsAt(at) {
		if !e.Wire.Existing {
			missing.sized(e.Wire)
		}
		rows = append(rows, sheet.Row{Name: e.Wire.Name, Cells: []sheet.Cell{
			{Words: cavity, Strong: true},
			{Words: e.Wire.Name, Strong: true},
			sheet.Is(gauge(e.Wire)), colourCell(e.Wire),
			sheet.Is(e.far()), sheet.Is(function(at.Device, cavity)), sheet.Is(filledWith(e)), sheet.Is(live),
		}})
	}
	return rows
}

// endsAt lists the ends of wires that land on a terminal.
func endsAt(t *harness.Terminal) []wireEnd {
	var list []wireEnd
	for _, w := range t.Wires {
		for n, e := range w.Ends {
			if end := (wireEnd{w, n}); e.Terminal == t && !slices.Contains(list, end) {
				list = append(list, end)
			}
		}
	}
	return list
}

func filledWith(e wireEnd) string {
	if e.Wire.Existing {
		return own(true)
	}
	fill := hardware(e.end())
	if s := seal(e); s != "" {
		fill += ", " + s
	}
	return fill
}

// function is what a cavity is for, as declared.
func function(d *harness.Device, cavity string) string {
	for _, args := range d.Given("way") {
		if args.RepeatKey() == cavity {
			return args.Word("function")
		}
	}
	return ""
}

// waysOf is how many ways a connector has, with a question mark where that is not
// declared.
func waysOf(d *harness.Device) string {
	if ways := d.Word("ways"); ways != "" {
		return ways + " ways"
	}
	return unknown + " ways"
}
