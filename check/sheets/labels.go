package sheets

import (
	"strings"

	"hame/check/draw"
	"hame/check/sheet"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(Maker{
	Name: "labels", Title: "Labels",
	Summary: "Labels for both ends of every wire, for devices, connector halves and battery posts, to print in true size",
	Make:    labels,
})

// label is one label: what it goes on, and its two lines.
type label struct {
	Name  string // in the harness
	On    string // the end, device or half that it is put on
	First string
	Then  string
}

const unswitchedWords = "UNSWITCHED: disconnect the battery"

func labels(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	ends, devices := p.wireLabels(), p.deviceLabels()
	if len(ends)+len(devices) == 0 {
		s.Add(sheet.Text{Words: "Nothing is to be labelled."})
		return s
	}
	s.Add(sheet.Text{Words: "Print the drawings at 100 % and cut along the marks. A wire's label is folded round it at the middle line, its text outwards on both sides."})
	s.Add(
		labelTable("wire_labels", "On the wires", "wire", ends),
		labelTable("device_labels", "On devices, connector halves and battery posts", "device", devices),
		small("Unswitched is what stands under voltage with the key off, the engine off and every switch open, as solved in that position with a full battery."),
	)
	if p.atRest() == nil {
		s.Add(sheet.Text{Words: "That position could not be solved, or is a dead short: no label here says what is unswitched.", Weight: sheet.Warning})
	}
	pictures := flagPages("labels_wires", "Wire labels", ends, double)
	pictures = append(pictures, flagPages("labels_devices", "Device labels", devices, single)...)
	s.Add(sheet.Drawing{Pictures: pictures})
	return s
}

// wireLabels has two labels for each new wire, one for each end: what it is, and
// where its other end goes.
func (p *Pack) wireLabels() []label {
	var list []label
	for _, w := range p.NewWires() {
		for n, e := range w.Ends {
			end := wireEnd{w, n}
			l := label{Name: w.Name, On: e.Name(), First: wireLabel(w), Then: "to " + end.far()}
			if l.First != w.Name {
				l.Then = w.Name + " " + l.Then
			}
			list = append(list, l)
		}
	}
	return list
}

// deviceLabels are those of all new devices but splices, which lie in the loom;
// the battery's posts are labelled whosever it is.
func (p *Pack) deviceLabels() []label {
	rest := p.atRest()
	var list []label
	for _, d := range p.Harness.Devices {
		switch {
		case d.Is(kinds.Supply, "battery"):
			list = append(list, batteryLabels(d)...)
		case d.Existing || d.Is(kinds.Join, "splice"):
		case d.Is(kinds.Join, "connector"):
			list = append(list, p.halfLabels(d)...)
		default:
			list = append(list, p.deviceLabel(rest, d))
		}
	}
	return list
}

func batteryLabels(d *harness.Device) []label {
	return []label{
		{Name: d.Name, On: d.Name + ".pos", First: "+ " + titleOf(d), Then: "battery positive"},
		{Name: d.Name, On: d.Name + ".neg", First: "\u2212 " + titleOf(d), Then: "battery negative: off first, on last"},
	}
}

func (p *Pack) deviceLabel(rest *states.Point, d *harness.Device) label {
	l := label{Name: d.Name, On: d.Name, First: titleOf(d)}
	if p.unswitched(rest, d) {
		l.Then = unswitchedWords
	}
	return l
}

// halfLabels are those of the halves that are here; the one that stays live says
// so.
func (p *Pack) halfLabels(d *harness.Device) []label {
	var list []label
	for _, half := range kinds.Halves(d) {
		l := label{Name: d.Name, On: d.Name + " " + half, First: titleOf(d) + ", " + half + " half"}
		for _, t := range d.Terminals {
			if strings.HasPrefix(t.Name, half+".") && len(t.Wires) > 0 && p.liveApart(t) {
				l.Then = "stays live when pulled apart"
			}
		}
		list = append(list, l)
	}
	return list
}

func labelTable(name, title, column string, list []label) *sheet.Table {
	t := &sheet.Table{Name: name, Title: title, Columns: []sheet.Column{
		{Name: column, Title: column},
		{Name: "on", Title: "goes on"},
		{Name: "first_line", Title: "first line"},
		{Name: "second_line", Title: "second line"},
	}, Empty: "None."}
	for _, l := range list {
		row := sheet.Cells(l.Name, l.On, l.First, l.Then)
		row.Name = l.Name
		t.Rows = append(t.Rows, row)
	}
	return t
}

// words are a line of words, cut to the room that it has, in mm.
func words(x, y float64, text string, size float64, heavy bool, room float64) draw.Text {
	return draw.Text{At: draw.Point{X: x, Y: y}, Words: draw.Cut(text, size, heavy, room), SizeMM: size, Bold: heavy, Colour: draw.Black}
}
