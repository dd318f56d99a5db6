package note

import (
	"fmt"
	"math"
	"strings"

	"hame/check/facts"
	"hame/check/practice"
	"hame/check/wording"
	"hame/lang/harness"
)

// ofLoad writes a load's note.
func (w *work) ofLoad() {
	d := w.device
	w.note.Title = d.Kind.Name + w.placed(d)
	w.law()
	w.loadModes()
	w.worst(w.main())
	w.span(w.main())
	w.way(w.main())
	w.drop(w.main())
	w.feeds(d)
}

// placed says where a device is.
func (w *work) placed(d *harness.Device) string {
	if d.At == nil {
		return ""
	}
	return " at " + d.At.Name
}

// law writes what is declared of the load and how it draws.
func (w *work) law() {
	s := w.section("What it draws")
	for _, i := range w.elements {
		e := &w.n.Elements[i]
		l := e.Load
		switch {
		case !l.Known:
			s.say(e.Name, "not declared")
		case l.Ohm > 0:
			s.add(e.Name, ohms(l.Ohm)).words("a resistance")
		case l.Watts > 0 && l.Sort == "bulb":
			s.add(e.Name, figure(l.Watts, "W")).words(fmt.Sprintf("a filament, at %s V", wording.Number(l.AtV)))
		case l.Watts > 0:
			s.add(e.Name, figure(l.Watts, "W")).words(fmt.Sprintf("constant power down to %s V", wording.Number(l.LeastV)))
		case l.Power > 0:
			s.add(e.Name, figure(l.Amps, "A")).words(fmt.Sprintf("at %s V, with volts to the power %s", wording.Number(l.AtV), wording.Number(l.Power)))
		default:
			s.add(e.Name, figure(l.Amps, "A")).words("constant current")
		}
		if l.StandbyA > 0 {
			s.add("with the key off", figure(l.StandbyA, "A")).words("declared standby")
		}
	}
	for _, setting := range []string{"least", "most"} {
		if v, ok := w.device.SI(setting); ok {
			s.add(setting+" volts", figure(v, "V")).words(map[bool]string{true: "declared", false: "assumed"}[w.device.Has(setting)])
		}
	}
}

// loadModes is what the load gets and draws in each mode.
func (w *work) loadModes() {
	s := w.section("In each mode")
	s.Table = &Table{Head: "mode", Columns: []Column{
		{Name: "across it", Unit: "V"}, {Name: "current", Unit: "A"}, {Name: "power", Unit: "W"}, {Name: "it is"},
	}}
	for n, p := range w.f.Survey.Modes {
		i := w.mostIn(n)
		volts, amps := math.Abs(p.Across(i)), math.Abs(w.amps(p))
		power := Cell{}
		if len(w.elements) == 1 {
			power = value(volts * amps)
		}
		state := "off"
		if w.f.On(p, i) {
			state = "on"
		}
		s.Table.line(w.f.Harness.Modes[n].Name, value(volts), value(amps), power, worded(state))
	}
}

// span is the least and the greatest that the load gets while it draws.
func (w *work) span(element int) {
	v := w.f.Survey.Volts[element]
	if v.LeastAt == nil {
		return
	}
	s := w.section("Volts while it draws, of every position that was solved")
	if w.f.On(w.f.Again(v.LeastAt), element) { // not with the solver's last digits alone
		s.add("least", figure(math.Abs(v.Least), "V")).words(wording.Position(v.LeastAt.Figure()))
	}
	s.add("most", figure(math.Abs(v.Most), "V")).words(wording.Position(v.MostAt.Figure()))
}

// mostIn is the element that carries the most in the n-th mode.
func (w *work) mostIn(n int) int {
	best := w.elements[0]
	for _, i := range w.elements {
		if p := w.f.Survey.Modes[n]; math.Abs(p.Amps(i)) > math.Abs(p.Amps(best)) {
			best = i
		}
	}
	return best
}

// drop is what the way loses, against what the practice allows.
func (w *work) drop(element int) {
	p := w.point()
	if p == nil {
		return
	}
	path, ok := w.f.Path(element, p)
	if !ok {
		return
	}
	s := w.section("Drop from source to load and back, in " + w.note.Mode)
	s.add("with wires at the ambient", figure(path.SourceV-path.LoadV, "V"), first(figure(path.SourceV, "V")), minus(figure(path.LoadV, "V")))
	lost, _ := w.f.DropTo(p, element, w.warmIn(w.mode))
	s.add("as warm as they get", figure(lost.Volts, "V")).words("each wire at its temperature in the mode, at most its class; this is judged")
	systemV := w.f.Harness.SystemV
	if source := w.n.Elements[path.Source].Source; source.Sort == "converter" {
		systemV = source.NominalV
	}
	share(s, "of the system's volts", figure(lost.Volts, "V"), figure(systemV, "V"))
	name := "drop_other"
	if w.device.Has("critical") {
		name = "drop_critical"
	}
	allowedDrop(s, w.f.Practice, name)
}

// warmIn is the temperature that a wire's drop is judged at in a mode.
func (w *work) warmIn(mode int) func(*harness.Wire) float64 {
	return func(wire *harness.Wire) float64 {
		temp := w.f.ModeC(wire, mode)
		if cable, ok := wire.Cable(); ok {
			return min(temp, cable.TemperatureC)
		}
		return temp
	}
}

func allowedDrop(s *Section, p *practice.Practice, name string) {
	if l, ok := p.Limit(name, ""); ok && l.Unit == "%" {
		s.add("allowed", figure(l.Value/100, "%")).words(strings.ReplaceAll(name, "_", ", ")).from(l.Source)
	}
}

// feeds names what protects the wires that feed a load, and their notes.
func (w *work) feeds(d *harness.Device) {
	s := w.section("What feeds it")
	for _, t := range d.Terminals {
		for _, wire := range t.Wires {
			if w.n.Return(w.n.Elements[w.n.OfWire(wire)].A) {
				s.say(wire.Name, "return, "+wording.Wire(wire))
				continue
			}
			w.fed(s, wire)
		}
	}
}

func (w *work) fed(s *Section, wire *harness.Wire) {
	text := "feed, " + wording.Wire(wire)
	for _, p := range w.f.Protect.Cover(wire).Paths {
		if a := facts.Answering(p); a != nil {
			text += "; from " + w.n.Elements[p.Source].Name + " " + a.Name + " answers, " + wording.Protection(a)
		}
	}
	s.say(wire.Name, text)
}
