package note

import (
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// ofSwitch writes the note of a switch, key or diode.
func (w *work) ofSwitch() {
	w.note.Title = w.device.Kind.Name + w.placed(w.device)
	for _, i := range w.elements {
		w.contact(i, "rating")
	}
	w.worst(w.main())
	w.way(w.main())
}

// ofRelay writes a relay's note: its coil, then each contact.
func (w *work) ofRelay() {
	coil := w.elements[0]
	w.note.Title = w.device.Kind.Name + w.placed(w.device)
	w.coil(coil)
	w.way(coil)
	for i := range w.n.Elements {
		if e := &w.n.Elements[i]; e.Kind == network.Contact && e.Gate.By == network.Relay && e.Gate.Coil == coil {
			w.contact(i, "contacts")
			w.worst(i)
		}
	}
}

// coil writes what the coil gets in each mode against where it pulls in, both
// at its heat.
func (w *work) coil(coil int) {
	l := w.n.Elements[coil].Load
	s := w.section("Coil")
	if !l.Known {
		s.say("coil", "not declared")
	} else {
		s.add("coil at 20 degC", ohms(l.Ohm))
	}
	s.add("pulls in, at 20 degC", figure(l.Coil.PullsV, "V"))
	s.add("lets go, at 20 degC", figure(l.Coil.ReleasesV, "V"))
	copper(s)
	s.Table = &Table{Head: "mode", Columns: []Column{
		{Name: "across it", Unit: "V"},
		{Name: "at", Unit: "degC"},
		{Name: "pulls in", Unit: "V"},
		{Name: "lets go", Unit: "V"},
		{Name: "coil", Unit: "ohm"},
		{Name: "current", Unit: "A"},
		{Name: "it is"},
	}}
	for n, p := range w.f.Survey.Modes {
		temp := w.f.SolvedC(coil, &p.Position)
		heat := tables.CopperAt(1, temp)
		state := "out"
		if p.In[coil] {
			state = "in"
		}
		s.Table.line(w.f.Harness.Modes[n].Name, value(math.Abs(p.Across(coil))), value(temp), value(l.Coil.PullsV*heat),
			value(l.Coil.ReleasesV*heat), value(l.Ohm*heat), value(flow(p, coil)), worded(state))
	}
}

// contact writes what a contact carries, each load with its factor, in the
// position in which it carries the most.
func (w *work) contact(i int, setting string) {
	s := w.section("What goes through " + w.called(i))
	loads, _ := w.f.Behind(i)
	rating, rated := w.device.SI(setting)
	w.byMode(s, loads, i, rating)
	if !rated {
		s.say("rating", "not declared")
		return
	}
	ratedFor := w.device.Word("for")
	s.add("rating", figure(rating, "A")).words("for " + ratedFor + " loads")
	if w.device.Is(kinds.Switch, "diode") {
		return
	}
	w.weighed(s, i, loads, ratedFor, rating)
}

// weighed sums current times factor.
func (w *work) weighed(s *Section, i int, loads []int, ratedFor string, rating float64) {
	found := w.f.Survey.Worst[i]
	if found.At == nil {
		return
	}
	p := w.f.Again(found.At)
	column, sum := min(w.railV(i), 28), 0.0 // the table ends at 28 V
	for _, load := range loads {
		e := &w.n.Elements[load]
		amps := flow(p, load)
		factor, source, _ := facts.ContactFactor(e.Load.Sort, ratedFor, column)
		if !w.f.On(p, load) {
			continue
		}
		sum += amps * factor
		s.add(e.Name, figure(amps*factor, "A"), first(figure(amps, "A")), times(figure(factor, ""))).
			words(facts.ContactClass(e.Load.Sort)).from(source)
	}
	if sum > 0 {
		s.add("asks, at its greatest current", figure(sum, "A")).words("the sum")
		share(s, "of the rating", figure(sum, "A"), figure(rating, "A"))
	}
}

// railV is the system's volts where a contact works: a converter's own on its
// rail, the harness's elsewhere.
func (w *work) railV(i int) float64 {
	e, volts := &w.n.Elements[i], 0.0
	for _, node := range []int{e.A, e.B} {
		if w.n.Return(node) {
			continue
		}
		for _, s := range w.f.FedBy(node) {
			spec := w.n.Elements[s].Source
			if spec.Sort != "converter" {
				return w.f.Harness.SystemV
			}
			volts = max(volts, spec.NominalV)
		}
	}
	if volts == 0 {
		return w.f.Harness.SystemV
	}
	return volts
}
