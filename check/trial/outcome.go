package trial

import (
	"math"
	"slices"
	"strings"

	"hame/check/network"
)

const (
	deadMostV   = 0.5 // what counts as dead: leaks and charged capacitors (common practice, no source)
	warmLeastA  = 5   // joints that carry less do not grow warm (common practice, no source)
	warmMostK   = 30  // at a joint after half an hour (common practice, no source)
	warmMarginK = 10  // where the wire alone grows nearly as warm
)

// pulled plans each new protective device pulled in the mode in which it carries
// the most: behind it nothing may be live, and what goes dead is what it feeds.
func (p *planner) pulled() {
	ground, _ := p.groundNode()
	for i := range p.n.Elements {
		e := &p.n.Elements[i]
		if e.Kind != network.Fuse || !isNew(e) || e.A == e.B || ground < 0 {
			continue
		}
		s, ok := p.strongest(i, func(s int) bool { return !p.cranks(s) })
		if !ok {
			p.lack("%s carries nothing in any mode: pull it in one in which it does", e.Name)
			continue
		}
		behind := e.B
		if p.clean.Point(s).Amps(i) < 0 {
			behind = e.A
		}
		if p.n.Return(behind) {
			continue
		}
		p.pull(i, s, behind, ground)
	}
}

func (p *planner) groundNode() (int, bool) {
	for _, node := range p.n.Grounds() {
		if p.names[node] != "" {
			return node, true
		}
	}
	return -1, false
}

func (p *planner) pull(fuse, s, behind, ground int) {
	name := p.n.Elements[fuse].Name
	dead := p.deadWithout(fuse, s)
	note := "nothing that is on goes dead"
	if len(dead) > 0 {
		note = "dead: " + strings.Join(dead, ", ")
	}
	l := Line{
		ID: p.id("pulled", name, s), Kind: Pulled, Name: name, Unit: Volts, Note: note,
		From: p.names[behind], To: p.names[ground],
		Probe: Probe{Setting: s, A: behind, B: ground, Element: -1, Open: []int{fuse}},
	}
	value, ok := p.clean.Value(l.Probe)
	if !ok || l.From == "" {
		return
	}
	l.Expect, l.Low, l.High = &value, -deadMostV, deadMostV
	if math.Abs(value) > deadMostV {
		l.Low, l.High = p.band(l.Probe, value, Volts)
		l.Note = join("stays live: fed from elsewhere too", note)
	}
	p.add(l)
}

// deadWithout lists what is on in a setting and off with an element open.
func (p *planner) deadWithout(fuse, s int) []string {
	var dead []string
	with := p.clean.Point(s)
	without := p.clean.Without(s, fuse)
	for i := range p.n.Elements {
		e := &p.n.Elements[i]
		if e.Kind == network.Load && !e.Load.Hidden() && p.f.On(with, i) && !p.f.On(without, i) && !slices.Contains(dead, e.Name) {
			dead = append(dead, e.Name)
		}
	}
	return dead
}

// charging plans each battery's current while the engine turns.
func (p *planner) charging() {
	p.eachSource("battery", func(i int, _ *network.Element) {
		for _, s := range p.powered() {
			if !p.turns(s) {
				continue
			}
			l := p.current("charge", i, s)
			value, ok := p.clean.Value(l.Probe)
			if !ok {
				continue
			}
			l.Kind, l.Expect = Charge, &value
			l.Low, l.High = p.band(l.Probe, value, Amperes)
			l.Note = clampNote
			if value < 0 {
				l.High = max(l.High, 0) // a full battery takes next to nothing
			}
			p.add(l)
		}
	})
}

// warm plans, for each new device, its terminal that carries the most, after
// half an hour.
func (p *planner) warm() {
	for _, d := range p.f.Harness.Devices {
		if d.Existing {
			continue
		}
		best, at, setting := warmLeastA*1.0, "", -1
		wire := -1
		for _, t := range d.Terminals {
			for _, w := range t.Wires {
				i := p.n.OfWire(w)
				s, ok := p.strongest(i, func(s int) bool { return !p.cranks(s) && p.plan.Settings[s].Mode >= 0 })
				if ok && p.amps(i, s) > best {
					best, at, setting, wire = p.amps(i, s), t.FullName(), s, i
				}
			}
		}
		if setting >= 0 {
			p.warmAt(d.Name, at, wire, setting)
		}
	}
}

func (p *planner) warmAt(name, at string, wire, setting int) {
	rise := p.rise(wire, p.plan.Settings[setting].Mode)
	l := Line{
		ID: p.id("warm", name, setting), Kind: Warm, Name: name, From: at, To: "air beside it", Unit: Kelvins,
		Expect: &rise, Low: math.Inf(-1), High: max(warmMostK, rise+warmMarginK),
		Note: warmNote, Probe: Probe{Setting: setting, Element: -1},
	}
	if l.High > warmMostK {
		l.Note = join("the wire alone grows nearly as warm", l.Note)
	}
	p.add(l)
}
