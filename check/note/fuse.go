package note

import (
	"fmt"
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/rules"
	"hame/check/wording"
	"hame/lang/harness"
)

// ofProtection writes the note of a protective device or a panel's way.
func (w *work) ofProtection() {
	element := w.elements[0]
	d := w.n.Elements[element].Fuse
	w.note.Title = wording.Protection(d)
	if d.AtPlace != nil {
		w.note.Title += " at " + d.AtPlace.Name
	}
	w.feeding(element)
	w.worst(element)
	w.loading(element, d)
	w.weakest(d)
	w.gates(d)
	w.shortBehind(element, d)
}

// feeding lists what the device feeds, and its share of the rating, by mode.
func (w *work) feeding(element int) {
	loads, either := w.f.Behind(element)
	s := w.section("What it feeds, in each mode")
	if either {
		s.Words = append(s.Words, "Sources lie on both sides: it feeds either way, and what it carries is the difference.")
	}
	w.byMode(s, loads, element, w.n.Elements[element].Fuse.RatingA)
}

// byMode is what each load takes in each mode, what goes through the element
// itself, and that as a share of a rating. Further modes follow in sections of
// their own.
func (w *work) byMode(s *Section, loads []int, element int, ratingA float64) {
	title := s.Title
	for from := 0; from < len(w.f.Survey.Modes); {
		if from > 0 {
			s = w.section(title + ", further")
		}
		to := w.across(from)
		w.someModes(s, loads, element, ratingA, from, to)
		from = to
	}
}

// across is how far modes stand side by side without a table getting too wide.
func (w *work) across(from int) int {
	const column, room = 10, columns - mostLabel - 4
	wide := 0
	for n := from; n < len(w.f.Harness.Modes); n++ {
		wide += 2 + max(column, min(mostLabel, width(w.f.Harness.Modes[n].Name)))
		if wide > room && n > from {
			return n
		}
	}
	return len(w.f.Harness.Modes)
}

func (w *work) someModes(s *Section, loads []int, element int, ratingA float64, from, to int) {
	t := &Table{Head: "load"}
	var through, share []Cell
	for n := from; n < to; n++ {
		amps := flow(w.f.Survey.Modes[n], element)
		t.Columns = append(t.Columns, Column{Name: w.f.Harness.Modes[n].Name, Unit: "A"})
		through = append(through, value(amps))
		share = append(share, worded(figure(amps/ratingA, "%").String()))
	}
	for _, i := range loads {
		var cells []Cell
		for n := from; n < to; n++ {
			cells = append(cells, value(flow(w.f.Survey.Modes[n], i)))
		}
		t.line(w.n.Elements[i].Name, cells...)
	}
	t.line("goes through", through...).Sum = true
	if ratingA > 0 {
		t.line("of "+wording.Number(ratingA)+" A", share...)
	}
	s.Table = t
}

// loading is the worst lasting current against what the practice allows.
func (w *work) loading(element int, d *network.Device) {
	if d.RatingA == 0 {
		return
	}
	s := w.section("Load against rating")
	s.add("rating", figure(d.RatingA, "A")).words(wording.Protection(d))
	amps := w.f.Survey.Worst[element].Amps
	share(s, "worst of it", figure(amps, "A"), figure(d.RatingA, "A"))
	for _, name := range []string{"device_load", "device_load_hot"} {
		if l, ok := w.f.Practice.Limit(name, ""); ok {
			words := "lasting"
			if name == "device_load_hot" {
				words = "lasting, in a hot zone"
			}
			s.add("allowed", figure(l.Value/100, "%")).words(words).from(l.Source)
		}
	}
	if d.AtPlace != nil && d.AtPlace.Zone != nil && d.AtPlace.Zone.Known {
		s.add("ambient", figure(d.AtPlace.Zone.MostC, "degC")).words("zone " + d.AtPlace.Zone.Name)
	}
}

// weakest is the weakest wire that the device answers for, or a load's own lead
// where that is weaker: what the rules hold it to, and the protection schedule shows.
func (w *work) weakest(d *network.Device) {
	weak, ok := rules.Ask(w.f).Weakest()[d]
	if ok && weak.Wire == nil {
		w.lead(d, weak)
		return
	}
	s := w.section("Weakest wire that it answers for")
	wire := weak.Wire
	if wire == nil {
		s.Words = append(s.Words, "none: another device answers for each wire behind it, or their figures are not declared")
		return
	}
	r, _ := w.f.DeviceAmpacity(wire)
	s.say(wire.Name, wording.Wire(wire)+" "+wire.Insulation)
	cable, _ := wire.Cable()
	ambientC, _ := facts.AmbientC(wire)
	w.rating(s, r, cable, ambientC, zoneWords(wire, ambientC))
	w.allowed(s, d, wire, false)
}

// lead is a load's own lead, where it is weaker than every wire.
func (w *work) lead(d *network.Device, weak rules.Weak) {
	s := w.section("A load's own lead, weaker than every wire that it answers for")
	s.say("lead of "+weak.Name, w.leadSize(weak.Name))
	r := weak.Rating
	s.add("ampacity", figure(r.Amps, "A"), first(figure(r.BaseA, "A")), times(figure(r.Factor, ""))).
		words(fmt.Sprintf("row %s, column %s degC, taken as a lead's class", r.Row, wording.Number(r.ColumnC))).from(r.Source)
	s.add(d.Name, figure(d.RatingA, "A")).words(wording.Protection(d))
	share(s, "rating of ampacity", figure(d.RatingA, "A"), figure(r.Amps, "A"))
}

func (w *work) leadSize(load string) string {
	for _, d := range w.f.Harness.Devices {
		if d.Name == load {
			return d.Word("lead")
		}
	}
	return ""
}

func (w *work) weakestWire(d *network.Device) *harness.Wire {
	var weakest *harness.Wire
	least := math.Inf(1)
	for _, wire := range w.f.Harness.Wires {
		for _, p := range w.f.Protect.Cover(wire).Paths {
			if facts.Answering(p) != d {
				continue
			}
			if r, ok := w.f.DeviceAmpacity(wire); ok && r.Amps < least {
				weakest, least = wire, r.Amps
			}
		}
	}
	return weakest
}

// gates are the times within which the standard lets the device open.
func (w *work) gates(d *network.Device) {
	t, family, ok := facts.OpeningTimes(d, d.RatingA)
	s := w.section("Opening times")
	list := family.Gates()
	if !ok || len(list) == 0 {
		s.say("times", "no gates: a link melts by its size, or the device is not known").from(t.Source())
		return
	}
	s.Table = &Table{Head: "of rating", Columns: []Column{
		{Name: "current", Unit: "A"}, {Name: "fastest", Unit: "s", Free: true}, {Name: "slowest", Unit: "s", Free: true},
	}}
	for _, g := range list {
		slowest := value(g.MaxS)
		if math.IsInf(g.MaxS, 1) {
			slowest = worded("holds")
		}
		s.Table.line(wording.Number(g.Percent)+" %", value(g.Percent/100*d.RatingA), value(g.MinS), slowest)
	}
	s.say("gates of", family.Name).from(list[0].Source)
	if family.GatesStandIn {
		s.Words = append(s.Words, "Those of the nearest family stand in: none are known for this one.")
	}
	s.Words = append(s.Words, "Between two gates a straight line on logarithms; beyond the last its I2t holds.")
}

// shortBehind are the shorts right behind the device.
func (w *work) shortBehind(element int, d *network.Device) {
	for _, f := range w.f.Faults.Behind(element) {
		s := w.section("Short right behind it, fed by " + w.n.Elements[f.Source].Name)
		w.short(s, f)
		if _, family, ok := facts.OpeningTimes(d, d.RatingA); ok {
			if amps, source, found := family.BreaksA(w.f.Harness.SystemV); found {
				s.add("it breaks", figure(amps, "A")).from(source)
			}
		}
		if wire := w.weakestWire(d); wire != nil && f.LeastLacks == nil {
			s.say("weakest wire", wire.Name)
			w.race(s, d, wire, f.LeastA)
		}
	}
}
