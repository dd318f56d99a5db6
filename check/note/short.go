package note

import (
	"fmt"
	"math"
	"slices"

	"hame/check/facts"
	"hame/check/faults"
	"hame/check/figures"
	"hame/check/network"
	"hame/check/trip"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

// shorts writes the shorts at the wire's far end, fed by each source, and the
// race of its device against the copper.
func (w *work) shorts() {
	if w.n.Side(w.wire) == figures.Return {
		return
	}
	for _, f := range w.f.Faults.At(w.wire) {
		s := w.section("Short at the far end, fed by " + w.n.Elements[f.Source].Name)
		w.short(s, f)
		if d := w.opens(f, w.wire); d != nil {
			w.race(s, d, w.wire, f.LeastA)
		}
	}
}

// short is what a short draws.
func (w *work) short(s *Section, f faults.Fault) {
	s.add("loop without the source", ohms(f.FeedOhm+f.BackOhm), first(ohms(f.FeedOhm)), plus(ohms(f.BackOhm))).
		words("feed and return, wires at their class temperature")
	if f.LeastLacks != nil {
		s.say("least current", fmt.Sprintf("not known until `%s` of `%s` is declared", f.LeastLacks.Setting, f.LeastLacks.Name))
		return
	}
	row := s.add("least current", figure(f.LeastA, "A"))
	if f.Limited {
		row.words("what the source gives at most, not a resistance, limits it")
	} else {
		row.words("battery at the least charge of any mode, behind its own resistance")
	}
	if f.MostLacks == nil {
		words := "at its greatest output, wires cold"
		if w.n.Elements[f.Source].Source.Sort == "battery" {
			words = "battery full, wires cold"
		}
		s.add("greatest current", figure(f.MostA, "A")).words(words)
	}
}

// opens is the device that opens first at a short, of those that the current
// cannot get round; nil where there is none.
func (w *work) opens(f faults.Fault, wire *harness.Wire) *network.Device {
	if f.LeastLacks != nil {
		return nil
	}
	var best *network.Device
	soonest := math.Inf(1)
	for _, p := range w.f.Protect.Cover(wire).Paths {
		if p.Source != f.Source {
			continue
		}
		for _, d := range p.Alone {
			t, _, ok := facts.OpeningTimes(d, d.RatingA)
			if seconds := t.SlowestSeconds(f.LeastA); ok && slices.Contains(f.Devices(), d) && (best == nil || seconds <= soonest) {
				best, soonest = d, seconds
			}
		}
	}
	return best
}

// race is a device's slowest opening time against what the copper stands.
func (w *work) race(s *Section, d *network.Device, wire *harness.Wire, amps float64) {
	t, _, _ := facts.OpeningTimes(d, d.RatingA)
	c, ok := w.f.Conductor(wire)
	if opens := t.SlowestSeconds(amps); math.IsInf(opens, 1) {
		s.say(d.Name+" opens", "never, at the slowest").from(t.Source())
	} else {
		s.add(d.Name+" opens", figure(opens, "s")).words(ofRating(d, amps) + ", at the slowest").from(t.Source())
	}
	if !ok {
		s.say("wire stands it", "not known: its gauge, insulation or an ambient on its way is not declared")
		return
	}
	w.stands(s, c, amps)
}

func ofRating(d *network.Device, amps float64) string {
	if d.RatingA == 0 {
		return "at that current"
	}
	return fmt.Sprintf("at %s %% of its rating", wording.Number(100*amps/d.RatingA))
}

// stands is how long the copper stands a current.
func (w *work) stands(s *Section, c trip.Conductor, amps float64) {
	k := c.K()
	s.add("k", figure(k, "")).words(fmt.Sprintf("A s^0.5/mm2, copper from %s to %s degC", wording.Number(c.InsulationC), wording.Number(c.FinalC))).
		from(tables.ConstantSource("copper_k_constant"))
	seconds := c.WithstandSeconds(amps)
	switch {
	case math.IsInf(seconds, 1):
		s.say("wire stands it", "for ever: it never gets to its short-time limit")
	case c.WithstandA2S() > trip.AdiabaticS*amps*amps:
		s.add("wire stands it", figure(seconds, "s")).words("by the heat model, beyond the 5 s of the adiabatic rule")
	default:
		s.add("wire stands it", figure(seconds, "s"),
			first(figure(k, "")), times(figure(k, "")), times(figure(c.CopperMM2, "mm2")), times(figure(c.CopperMM2, "mm2")),
			over(figure(amps, "A")), over(figure(amps, "A")))
	}
}
