package note

import (
	"fmt"
	"strings"

	"hame/check/facts"
	"hame/check/figures"
	"hame/check/network"
	"hame/check/protect"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

// protection writes what protects the wire, from each source on.
func (w *work) protection() {
	s := w.section("Protection")
	cover := w.f.Protect.Cover(w.wire)
	switch {
	case w.n.Side(w.wire) == figures.Return:
		s.Words = append(s.Words, "on the return side: the device in the feed protects it")
	case len(cover.Paths) == 0:
		s.Words = append(s.Words, "no source reaches it with all switches closed")
	}
	for _, p := range cover.Paths {
		w.reach(s, p)
	}
	asked := map[*network.Device]bool{}
	for _, p := range cover.Paths {
		if d := facts.Answering(p); d != nil && !asked[d] {
			asked[d] = true
			w.allowed(s, d, w.wire, true)
		}
	}
}

// reach is how one source reaches the wire: by which devices, or bare.
func (w *work) reach(s *Section, p protect.Path) {
	from := "from " + w.n.Elements[p.Source].Name
	if p.Bare {
		w.bare(s, from, p)
		return
	}
	var names []string
	for _, d := range p.Chain {
		names = append(names, d.Name)
	}
	answers := "; a fault gets round each of them"
	if d := facts.Answering(p); d != nil {
		answers = "; " + d.Name + " answers for the wire"
	}
	s.say(from, "through "+strings.Join(names, ", ")+answers)
}

// bare is a source that no device parts from the wire.
func (w *work) bare(s *Section, from string, p protect.Path) {
	if !p.Known {
		s.say(from, "no device; a length on the way is not known")
		return
	}
	s.add(from, figure(p.FarM, "m")).words("no device: along the conductors to the wire's far end")
	name := "distance_bare"
	if w.wire.Sheathed() {
		name = "distance_sheathed"
	}
	if l, ok := w.f.Practice.Limit(name, ""); ok {
		s.add("allowed", figure(l.Value/1000, "m")).words("to the nearest device, " + strings.TrimPrefix(name, "distance_")).from(l.Source)
	}
}

// allowed is a device's rating against the wire that it answers for; with the
// wire's ampacity, where that doesn't stand above already.
func (w *work) allowed(s *Section, d *network.Device, wire *harness.Wire, ampacity bool) {
	s.add(d.Name, figure(d.RatingA, "A")).words(wording.Protection(d))
	r, ok := w.f.DeviceAmpacity(wire)
	if !ok {
		s.say("allowed", "not known: the wire's gauge, insulation or an ambient on its way is not declared")
		return
	}
	if own, _ := w.f.Ampacity(wire); ampacity && r.ColumnC < own.ColumnC {
		capped(s, r)
	}
	for _, grade := range []string{"warning", "error"} {
		if l, ok := w.f.Practice.Limit("device_wire", grade); ok {
			most := r.Amps * l.Value / 100
			s.add("allowed, else "+grade, figure(most, "A"), first(figure(r.Amps, "A")), times(figure(l.Value/100, "%"))).from(l.Source)
		}
	}
	share(s, "rating of ampacity", figure(d.RatingA, "A"), figure(r.Amps, "A"))
}

// capped is the ampacity that holders and terminals bear.
func capped(s *Section, r tables.Rating) {
	s.add("ampacity for devices", figure(r.Amps, "A"), first(figure(r.BaseA, "A")), times(figure(r.Factor, ""))).
		words(fmt.Sprintf("row %s, column %s degC: holders and terminals are the limit", r.Row, wording.Number(r.ColumnC))).from(r.Source)
}
