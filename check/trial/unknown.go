package trial

import (
	"math"

	"hame/check/network"
)

// mostFacts is how many missing facts are followed one by one; with more, no
// figure under power is told.
const mostFacts = 64

// mostWork bounds it too: facts by lines that are solved on their own by elements,
// a few seconds of work. Beyond it no figure under power is told either.
const mostWork = 5_000_000

// fact is a figure that is missing, with what its element would be if it were
// another one.
type fact struct {
	name   string
	change func(e *network.Element)
	at     int
}

// unknown takes the expected figure from lines that a missing fact decides: those
// that read otherwise once the fact is another one.
func (p *planner) unknown() {
	missing := p.missing()
	if p.f.Harness.Torn {
		p.lack("no figure under power is expected: what could not be bound is missing from the network")
		p.forget(func(*Line) bool { return true }, "what could not be bound")
	}
	if len(missing) > mostFacts || len(missing)*p.apartLines()*len(p.n.Elements) > mostWork {
		p.lack("no figure under power is expected: %d facts are missing, too many to follow in a harness of this size", len(missing))
		p.forget(func(*Line) bool { return true }, "too many facts")
		return
	}
	for _, m := range missing {
		other := p.plan.Model.With(func(elements []network.Element) { m.change(&elements[m.at]) })
		p.forget(func(l *Line) bool { return p.moves(l, m, other) }, m.name)
	}
}

// apartLines counts the lines that are solved with something open.
func (p *planner) apartLines() int {
	n := 0
	for i := range p.plan.Lines {
		if len(p.plan.Lines[i].Probe.Open) > 0 {
			n++
		}
	}
	return n
}

// moves: a line reads otherwise by more than its meter's tolerance.
func (p *planner) moves(l *Line, m fact, other *Variant) bool {
	if l.Kind == Warm {
		return true // what a wire's heat hangs on is not followed
	}
	if l.Probe.Setting < 0 {
		return l.Probe.Element == m.at
	}
	was, ok := p.clean.Value(l.Probe)
	is, okToo := other.Value(l.Probe)
	return !ok || !okToo || math.Abs(is-was) > l.Unit.Tolerance(was)
}

// forget takes the expected figures of lines under power, or of one wire, away.
func (p *planner) forget(which func(*Line) bool, need string) {
	for i := range p.plan.Lines {
		l := &p.plan.Lines[i]
		if l.Kind == Isolation || !which(l) {
			continue
		}
		l.Expect, l.Needs = nil, append(l.Needs, need)
		if l.Kind != Pulled && l.Kind != Continuity && l.Kind != Warm {
			l.Low, l.High = math.Inf(-1), math.Inf(1)
		}
	}
}

// missing lists the facts that what flows hangs on.
func (p *planner) missing() []fact {
	var list []fact
	for i := range p.n.Elements {
		e := &p.n.Elements[i]
		switch {
		case e.Wire != nil && (!e.Wire.HasLength || e.Wire.AreaMM2 == 0):
			list = append(list, fact{e.Name + lackOf(e), func(e *network.Element) { e.Ohm = 3*e.Ohm + 0.1 }, i})
		case e.Kind == network.Load && !e.Load.Hidden() && e.Load.Sort != "converter" && !e.Load.Known:
			list = append(list, fact{e.Name + " draw", draws, i})
		case e.Kind == network.Source && e.Source.Sort == "battery" && !e.Source.OhmKnown:
			list = append(list, fact{e.Name + " resistance or cranking", weaker, i})
		}
	}
	return list
}

func lackOf(e *network.Element) string {
	if !e.Wire.HasLength {
		return " length"
	}
	return " gauge"
}

// draws lets a load of unknown draw draw as much as a big lamp.
func draws(e *network.Element) {
	spec := *e.Load
	spec.Amps, spec.Watts, spec.Ohm = 5, 0, 0
	e.Load = &spec
}

func weaker(e *network.Element) {
	spec := *e.Source
	spec.Ohm *= 2
	e.Source = &spec
}
