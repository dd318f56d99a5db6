package note

import (
	"fmt"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/wording"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// way writes the way of an element's current in the chosen mode, step by step,
// and where each step's cold resistance comes from.
func (w *work) way(element int) {
	p := w.point()
	if p == nil {
		return
	}
	path, ok := w.f.Path(element, p)
	if !ok {
		s := w.section("Way in " + w.note.Mode)
		s.Words = append(s.Words, "carries nothing in this mode")
		return
	}
	w.steps(&path)
	w.cold(&path)
}

// steps is the table of a way, and what it leaves of the source's volts.
func (w *work) steps(path *facts.Way) {
	source, load := w.n.Elements[path.Source].Name, w.n.Elements[path.Load].Name
	s := w.section(fmt.Sprintf("Way in %s: from %s to %s and back", w.note.Mode, source, load))
	s.Table = &Table{Head: "step", Columns: []Column{
		{Name: "at 20 degC", Unit: "ohm", Milli: true},
		{Name: "solved at", Unit: "degC"},
		{Name: "so", Unit: "ohm", Milli: true},
		{Name: "current", Unit: "A"},
		{Name: "drop", Unit: "V", Milli: true},
	}}
	cold, hot, drop := 0.0, 0.0, 0.0
	for i, half := range [][]facts.Step{path.Feed, path.Back} {
		if i == 1 {
			w.atLoad(s.Table, path.Load)
		}
		for _, step := range half {
			w.step(s.Table, step)
			cold, hot, drop = cold+step.ColdOhm, hot+step.Ohm, drop+step.DropV
		}
	}
	s.Table.line("sum", value(cold), Cell{}, value(hot), Cell{}, value(drop)).Sum = true
	s.add("at "+source, figure(path.SourceV, "V")).words("across its terminals")
	s.add("at "+load, figure(path.LoadV, "V"), first(figure(path.SourceV, "V")), minus(figure(drop, "V")))
	copper(s)
	s.Words = append(s.Words, "Solved with each zone at its ambient in the mode, the wires' own heat left out.")
}

// copper says how copper's resistance grows.
func copper(s *Section) {
	alpha, from := tables.CopperAlpha()
	s.say("copper", fmt.Sprintf("x (1 + %s x (degC - 20))", wording.Number(alpha))).from(from)
}

func (w *work) step(t *Table, step facts.Step) {
	temp := Cell{}
	if w.n.Elements[step.Element].Kind == network.Wire {
		temp = value(step.TempC)
	}
	cold, hot := value(step.ColdOhm), value(step.Ohm)
	if step.FixedV != 0 { // its drop isn't a product
		cold, hot = Cell{}, Cell{}
	}
	t.line(w.called(step.Element), cold, temp, hot, value(step.Amps), value(step.DropV))
}

// atLoad marks where the way turns back.
func (w *work) atLoad(t *Table, load int) {
	t.line("("+w.n.Elements[load].Name+")", make([]Cell, len(t.Columns))...)
}

// cold writes where the cold resistances of a way come from, each once.
func (w *work) cold(path *facts.Way) {
	s := w.section("Resistances at 20 degC")
	seen, contacts := map[string]bool{}, false
	for _, half := range [][]facts.Step{path.Feed, path.Back} {
		for _, step := range half {
			e := &w.n.Elements[step.Element]
			switch {
			case e.Kind == network.Wire:
				w.coldWire(s, e)
				contacts = true
			case e.Kind != network.Load && e.Kind != network.Source && e.Kind != network.Diode:
				w.coldPart(s, step.Element, seen)
			}
		}
	}
	if contacts {
		ends(s)
	}
}

// ends lists what a wire's two ends add.
func ends(s *Section) {
	for _, c := range []struct {
		contact tables.Contact
		name    string
	}{
		{tables.Crimp, "a crimp"}, {tables.RingOnStud, "a ring on a stud"}, {tables.Tab, "a tab"}, {tables.Splice, "a butt"},
	} {
		ohm, source, _ := tables.ContactOhm(c.contact)
		s.add(c.name, ohms(ohm)).from(source)
	}
	s.Words = append(s.Words, "A wire: its length, then its two ends; on a chassis half of the chassis's own as well.")
}

// coldWire is a wire's row: length times ohms a metre, and its ends.
func (w *work) coldWire(s *Section, e *network.Element) {
	wire := e.Wire
	if !wire.HasLength || wire.AreaMM2 == 0 {
		s.add(e.Name, ohms(e.Ohm)).words("a stand-in: its length or gauge is not declared")
		return
	}
	per := tables.ResistancePerM(wire.Size)
	how := []Term{first(figure(wire.LengthM, "m")), times(milli(per.OhmPerM, "ohm/m"))}
	for _, end := range wire.Ends {
		for _, c := range network.Landing(end) {
			ohm, _, _ := tables.ContactOhm(c)
			how = append(how, plus(ohms(ohm)))
		}
		if ohm := network.ChassisShareOhm(end); ohm > 0 {
			how = append(how, plus(ohms(ohm)))
		}
	}
	s.add(e.Name, ohms(e.Ohm), how...).from(per.Source)
}

// coldPart is the row of a device, contact or joint.
func (w *work) coldPart(s *Section, i int, seen map[string]bool) {
	e, label := &w.n.Elements[i], w.called(i)
	if seen[label] {
		return
	}
	seen[label] = true
	row := s.add(label, ohms(e.Ohm))
	switch {
	case e.Kind == network.Fuse:
		words, source := deviceOhmSource(e.Fuse)
		row.words(words).from(source)
	case e.Kind == network.Contact && e.Gate.By == network.Relay:
		row.from(contactSource(tables.RelayContact))
	case e.Kind == network.Contact:
		row.from(contactSource(tables.SwitchContact))
	case e.Device != nil && e.Device.Is(kinds.Join, "connector"):
		row.from(contactSource(tables.ConnectorContact))
	case e.Device != nil && e.Device.Is(kinds.Supply, "tap"):
		w.run(row, e)
	default:
		row.words("half of the chassis's `resistance`")
	}
}

func contactSource(c tables.Contact) tables.Source {
	_, source, _ := tables.ContactOhm(c)
	return source
}

// deviceOhmSource says where a device's resistance comes from.
func deviceOhmSource(d *network.Device) (string, tables.Source) {
	switch {
	case d.Sort == "link":
		per := tables.ResistancePerM(tables.Metric(d.LinkMM2))
		return "150 mm of it, the usual length", per.Source
	case d.RatingA == 0:
		return "left out: its rating is not declared", tables.Source{}
	case d.Sort == "breaker":
		_, source := tables.BreakerOhm(d.RatingA)
		return "by its rating", source
	}
	_, source := tables.FuseOhm(d.RatingA)
	return "by its rating", source
}

// run is the row of a borrowed circuit's own wire.
func (w *work) run(row *Row, e *network.Element) {
	length, long := e.Device.SI("run")
	args, sized := e.Device.Args("gauge")
	if !long || !sized {
		row.words("a splice stands in: `run` or `gauge` is not declared").from(contactSource(tables.Splice))
		return
	}
	a, _ := args.Get("")
	per := tables.ResistancePerM(kinds.Size(a.Lo))
	row.How = []Term{first(figure(length, "m")), times(milli(per.OhmPerM, "ohm/m"))}
	row.words(per.Note).from(per.Source)
}
