package note

import (
	"fmt"
	"math"

	"hame/check/facts"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

// heat writes how hot the wire gets at worst, and with what else beside it.
func (w *work) heat() {
	s := w.section("Temperature at worst")
	warmth, ok := w.f.Warmth(w.wire)
	if !ok {
		s.Words = append(s.Words, "not known: an ambient, gauge or insulation on its way is not declared")
		return
	}
	if warmth.Runaway() {
		s.say("conductor", "no balance below the melting point of copper")
	} else {
		s.add("conductor", figure(warmth.TempC, "degC")).words("by the heat balance of the bundle, iterated: no pocket calculator's work")
	}
	if cable, ok := w.wire.Cable(); ok {
		s.add("class of "+cable.Name, figure(cable.TemperatureC, "degC")).from(cable.Source)
	}
	s.add("ambient", figure(warmth.AmbientC, "degC")).words(zoneWords(w.wire, warmth.AmbientC))
	w.made(s, warmth)
	if warmth.At != nil {
		s.say("where", wording.Position(warmth.At.Position.Figure()))
	}
	w.beside(s, warmth)
}

// made is the heat that a metre of the wire makes then.
func (w *work) made(s *Section, warmth facts.Warmth) {
	const nothing = 1e-6
	if warmth.Runaway() || w.wire.AreaMM2 == 0 || warmth.Amps < nothing {
		return
	}
	per := tables.CopperAt(tables.ResistancePerM(w.wire.Size).OhmPerM, warmth.TempC)
	s.add("heat made", figure(warmth.Amps*warmth.Amps*per, "W/m"),
		first(figure(warmth.Amps, "A")), times(figure(warmth.Amps, "A")), times(milli(per, "ohm/m"))).
		words(fmt.Sprintf("at %s degC", wording.Number(warmth.TempC)))
}

// beside lists what else runs in the wire's bundles.
func (w *work) beside(s *Section, warmth facts.Warmth) {
	if warmth.Bundle == nil {
		s.say("hottest", "by itself, at the place of an end")
	} else {
		s.say("hottest", "in "+warmth.Bundle.Name)
	}
	if len(w.wire.Route) == 0 {
		return
	}
	s.Table = &Table{Head: "beside it", Columns: []Column{{Name: "bundle"}, {Name: "size"}, {Name: "current", Unit: "A"}}}
	for _, b := range w.wire.Route {
		cover := "bare"
		if b.Cover != nil {
			cover = "in " + b.Cover.Name
		}
		s.say("bundle "+b.Name, fmt.Sprintf("%s, %s mm over its %d wires", cover, wording.Number(b.DiameterMM), len(b.Members)))
		for _, m := range b.Members {
			amps := 0.0
			if warmth.At != nil {
				amps = flow(warmth.At, w.n.OfWire(m))
			}
			s.Table.line(m.Name, worded(b.Name), worded(m.Size.String()), value(amps))
		}
	}
}

// zoneWords names the zone of a wire that has an ambient.
func zoneWords(wire *harness.Wire, ambientC float64) string {
	for _, z := range wire.Zones() {
		if z.Known && z.MostC == ambientC {
			return "zone " + z.Name
		}
	}
	return ""
}

// ampacity writes what the wire may carry lastingly, and its share.
func (w *work) ampacity() {
	s := w.section("Ampacity")
	fw := w.f.Wire(w.wire)
	if fw.Ampacity == nil {
		s.Words = append(s.Words, "not known: gauge, insulation or an ambient on its way is not declared, or no table reaches it")
		return
	}
	cable, _ := w.wire.Cable()
	s.say("conductor", w.wire.Size.String()+" takes the row "+fw.Ampacity.Row+", the largest not above it")
	w.rating(s, *fw.Ampacity, cable, *fw.AmbientC, zoneWords(w.wire, *fw.AmbientC))
	if fw.WorstA == nil {
		return
	}
	share(s, "worst of it", figure(*fw.WorstA, "A"), figure(fw.Ampacity.Amps, "A"))
}

// share is a figure as a share of another.
func share(s *Section, label string, part, of Figure) {
	const nothing = 1e-9
	switch {
	case of.Value <= nothing:
		s.say(label, "no share: nothing is allowed")
	case part.Value <= nothing:
		s.say(label, "none")
	default:
		s.add(label, figure(part.Value/of.Value, "%"), first(part), over(of))
	}
}

// rating writes a table's figure, the factor for the ambient and their product.
func (w *work) rating(s *Section, r tables.Rating, cable tables.CableType, ambientC float64, zone string) {
	s.add("table", figure(r.BaseA, "A")).
		words(fmt.Sprintf("row %s, column %s degC, for %s degC ambient", r.Row, wording.Number(r.ColumnC), wording.Number(r.BaseC))).from(r.Source)
	s.add("ambient", figure(ambientC, "degC")).words(zone)
	factor := s.add("factor", figure(r.Factor, ""))
	_, source := tables.AmbientFactor(cable.TemperatureC, ambientC)
	byLaw := tables.AmbientFactorFrom(cable.TemperatureC, ambientC, r.BaseC)
	switch {
	case math.Abs(min(1, byLaw)-r.Factor) > 1e-9:
		factor.words("as published for this ambient, or to the first column's rise").from(r.Source)
	case byLaw > 1:
		factor.words(fmt.Sprintf("below %s degC it is never above 1", wording.Number(r.BaseC)))
	default:
		factor.words(fmt.Sprintf("= sqrt((%s - %s) / (%s - %s))", wording.Number(cable.TemperatureC), wording.Number(ambientC), wording.Number(cable.TemperatureC), wording.Number(r.BaseC))).from(source)
	}
	s.add("ampacity", figure(r.Amps, "A"), first(figure(r.BaseA, "A")), times(figure(r.Factor, ""))).words(r.Note)
}

// lengths writes what the wire's length is made of.
func (w *work) lengths() {
	s := w.section("Length")
	wire := w.wire
	switch {
	case !wire.HasLength:
		s.Words = append(s.Words, "not known: its ends have no route between them; 1 m stands in")
	case wire.LengthSaid:
		s.add("cut length", figure(wire.LengthM, "m")).words("as declared")
	default:
		var how []Term
		sum := 0.0
		words := "route:"
		for _, b := range wire.Route {
			how, sum = append(how, plus(figure(b.LengthM, "m"))), sum+b.LengthM
			words += " " + b.Name
		}
		if len(how) == 0 {
			words = "within one place: slack alone"
		}
		slack := (wire.LengthM - sum) / 2
		how = append(how, plus(figure(slack, "m")), plus(figure(slack, "m")))
		how[0].Op = ""
		s.add("cut length", figure(wire.LengthM, "m"), how...).words(words + ", and the slack at both ends")
	}
}

// wireModes is the wire's own current and drop in every mode.
func (w *work) wireModes() {
	s := w.section("Current in each mode")
	fw := w.f.Wire(w.wire)
	s.Table = &Table{Head: "mode", Columns: []Column{
		{Name: "current", Unit: "A"},
		{Name: "conductor", Unit: "degC"},
		{Name: "then", Unit: "ohm", Milli: true},
		{Name: "its own drop", Unit: "V", Milli: true},
	}}
	for n, m := range fw.Modes {
		temp, ohm := w.f.ModeC(w.wire, n), Cell{}
		if fw.ResistanceOhm != nil {
			ohm = value(tables.CopperAt(*fw.ResistanceOhm, temp))
		}
		s.Table.line(m.Mode, known(m.CurrentA), value(temp), ohm, known(m.DropV))
	}
	if fw.ResistanceOhm != nil {
		per := tables.ResistancePerM(w.wire.Size)
		s.add("conductor at 20 degC", ohms(*fw.ResistanceOhm), first(figure(w.wire.LengthM, "m")), times(milli(per.OhmPerM, "ohm/m"))).
			words(per.Note).from(per.Source)
	}
	s.Words = append(s.Words, "The wire alone, without its ends, its copper as warm as its current makes it. A current is below zero from the second end to the first.")
}
