package trial

import (
	"fmt"
	"math"

	"hame/check/network"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// leastDropA is a current below which a drop tells nothing.
const leastDropA = 0.05

// drops plans, for each new load, what is lost on the way to it and back, in the
// mode in which it draws the most; and for alternators on the way to the battery.
func (p *planner) drops() {
	p.eachLoad(func(i int, e *network.Element) {
		s, ok := p.strongest(i, always)
		if !ok || p.amps(i, s) < leastDropA {
			return
		}
		p.way(i, s, e.Name, limitsOf(e))
	})
	p.eachSource("alternator", func(i int, e *network.Element) {
		if s, ok := p.strongest(i, p.turns); ok {
			p.charge(i, e, s)
		}
	})
}

// limitsOf names the books' limits for a load's feed and return.
func limitsOf(e *network.Element) [2]string {
	if e.Device.Is(kinds.Load, "starter") {
		return [2]string{"starter_feed", "starter_return"}
	}
	return [2]string{"circuit", "circuit"}
}

// way plans the two halves of a load's way.
func (p *planner) way(load, setting int, name string, limits [2]string) {
	way, ok := p.f.Path(load, p.clean.Point(setting))
	if !ok || p.n.Elements[way.Source].Kind != network.Source || way.Load != load {
		return
	}
	source, e := &p.n.Elements[way.Source], &p.n.Elements[load]
	hot := p.n.Hot(way.Source)
	top, foot := e.A, e.B
	if p.clean.Point(setting).Amps(load) < 0 {
		top, foot = foot, top
	}
	p.drop(Line{ID: p.id("feed", name, setting), Kind: Feed, Name: name}, setting, hot, top, limits[0])
	p.drop(Line{ID: p.id("return", name, setting), Kind: Return, Name: name}, setting, foot, source.A+source.B-hot, limits[1])
}

// charge plans an alternator's two sides against the first battery that it
// charges.
func (p *planner) charge(alternator int, e *network.Element, setting int) {
	for i := range p.n.Elements {
		b := &p.n.Elements[i]
		if b.Kind != network.Source || b.Source.Sort != "battery" || p.clean.Point(setting).Amps(i) >= 0 {
			continue
		}
		p.drop(Line{ID: p.id("feed", e.Name, setting), Kind: Feed, Name: e.Name}, setting, e.A, b.A, "charging_feed")
		p.drop(Line{ID: p.id("return", e.Name, setting), Kind: Return, Name: e.Name}, setting, b.B, e.B, "charging_return")
		return
	}
}

// drop plans volts lost between two nodes that the current runs through.
func (p *planner) drop(l Line, setting, from, to int, item string) {
	if from == to {
		return
	}
	l.Unit = Millivolts
	l.Probe = Probe{Setting: setting, A: from, B: to, Element: -1}
	if limit, _, ok := tables.DropTest(item); ok && p.f.Harness.SystemV == 12 {
		l.Limit = limit
		l.Note = join(l.Note, fmt.Sprintf("books: %g mV", limit*1000))
	}
	if p.cranks(setting) {
		l.Note = join(l.Note, "read while the engine cranks, 5 s at most")
	}
	p.measured(l)
}

func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

// parts plans the drop of each single wire, joint, contact and device, for where
// a whole way is out.
func (p *planner) parts() {
	for i := range p.n.Elements {
		e := &p.n.Elements[i]
		item, ok := partOf(e)
		if !ok || !isNew(e) || e.A == e.B {
			continue
		}
		s, ok := p.strongest(i, always)
		if !ok || p.amps(i, s) < leastDropA {
			continue
		}
		from, to := e.A, e.B
		if p.clean.Point(s).Amps(i) < 0 {
			from, to = to, from
		}
		p.drop(Line{ID: p.id("drop", p.PartName(i), s), Kind: Part, Name: p.PartName(i), Spare: true}, s, from, to, item)
	}
}

// partOf is what the books' limits call an element; false for what loses no
// volts on the way.
func partOf(e *network.Element) (item string, ok bool) {
	switch e.Kind {
	case network.Wire:
		return "cable", true
	case network.Contact:
		return "contact", true
	case network.Joint:
		if e.Device.Is(kinds.Ground) {
			return "ground", true
		}
		return "joint", true
	case network.Fuse, network.Diode:
		return "", true
	}
	return "", false
}

// PartName is what an element goes by: a wire's or way's name, else the terminal
// that tells it from others of its device.
func (p *planner) PartName(i int) string { return p.plan.Model.PartName(i) }

// PartName is what an element goes by: a wire's or way's name, else the terminal
// that tells it from others of its device.
func (m *Model) PartName(i int) string {
	e := &m.Network.Elements[i]
	if e.Wire != nil || e.Device == nil {
		return e.Name
	}
	for _, t := range e.Device.Terminals {
		if e.Kind == network.Contact && t.Index == e.B || e.Kind == network.Joint && e.Device.Is(kinds.Join) && t.Index == e.A {
			return t.FullName()
		}
	}
	return e.Name
}

// rise is how much a wire's conductor is warmer than the air around it in a mode.
func (p *planner) rise(element, mode int) float64 {
	w := p.n.Elements[element].Wire
	return math.Max(0, p.f.ModeC(w, mode)-p.f.SolvedC(element, &p.f.Survey.Modes[mode].Position))
}
