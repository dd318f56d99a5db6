package trial

import (
	"fmt"
	"math"
	"sort"

	"hame/check/network"
	"hame/lang/kinds"
)

// polarities plans each new load's polarity with the load unplugged: what is
// the wrong way round must be found before it takes harm.
func (p *planner) polarities() {
	p.eachLoad(func(i int, e *network.Element) {
		open := p.unplugged(e)
		for _, s := range p.calmFirst() {
			if !p.f.On(p.clean.Point(s), i) || p.cranks(s) {
				continue
			}
			p.measured(Line{
				ID: p.id("pol", e.Name, s), Kind: Polarity, Name: e.Name, Unit: Volts, Note: unpluggedNote,
				Probe: Probe{Setting: s, A: e.A, B: e.B, Element: -1, Open: open},
			})
			return
		}
		p.lack("%s is on in no mode: declare one in which it is, so that it can be proved", e.Name)
	})
}

// calmFirst lists the settings, those with the engine off before the others:
// first power is put on while nothing turns.
func (p *planner) calmFirst() []int {
	list := p.powered()
	sort.SliceStable(list, func(a, b int) bool { return !p.turns(list[a]) && p.turns(list[b]) })
	return list
}

// eachLoad visits what is new and draws: loads, coils, inputs of converters.
func (p *planner) eachLoad(visit func(i int, e *network.Element)) {
	for i := range p.n.Elements {
		if e := &p.n.Elements[i]; e.Kind == network.Load && !e.Load.Hidden() && isNew(e) {
			visit(i, e)
		}
	}
}

// unplugged lists all that a load's plug takes off: every input of the device.
func (p *planner) unplugged(e *network.Element) []int {
	var list []int
	for i := range p.n.Elements {
		if o := &p.n.Elements[i]; o.Device == e.Device && (o.Kind == network.Load || o.Kind == network.Source) {
			list = append(list, i)
		}
	}
	return list
}

// keyOff plans each battery's draw with the key off.
func (p *planner) keyOff() {
	p.eachSource("battery", func(i int, e *network.Element) {
		for _, s := range p.powered() {
			if at := p.plan.Settings[s].Position; at.Key != "off" || at.Engine != "off" {
				continue
			}
			l := p.current("keyoff", i, s)
			l.Kind = KeyOff
			l.From, l.To = p.names[e.B], "its own cable"
			l.Note = ammeterNote
			value, ok := p.clean.Value(l.Probe)
			if !ok {
				continue
			}
			l.Unit = Milliamps
			if math.Abs(value) >= meterMostA {
				l.Unit, l.Note = Amperes, "clamp: more than an ammeter's 10 A"
			}
			low, high := p.band(l.Probe, value, l.Unit)
			l.Expect, l.Low, l.High = &value, min(low, -l.Unit.Tolerance(0)), high // less than is stated is no fault
			p.add(l)
		}
	})
}

// meterMostA is what the ammeter of a handheld meter bears (common practice).
const meterMostA = 10

func (p *planner) eachSource(sort string, visit func(i int, e *network.Element)) {
	for i := range p.n.Elements {
		if e := &p.n.Elements[i]; e.Kind == network.Source && e.Source.Sort == sort && p.names[e.A] != "" && p.names[e.B] != "" {
			visit(i, e)
		}
	}
}

// current is a line of a source's current.
func (p *planner) current(what string, source, setting int) Line {
	e := &p.n.Elements[source]
	return Line{
		ID: p.id(what, e.Name, setting), Name: e.Name, From: p.names[e.A], To: "its cable", Unit: Amperes,
		Probe: Probe{Setting: setting, Amps: true, Element: source},
	}
}

// sources plans the volts of everything that feeds.
func (p *planner) sources() {
	for _, s := range p.powered() {
		for i := range p.n.Elements {
			e := &p.n.Elements[i]
			if e.Kind == network.Source && (e.Source.Sort != "alternator" || p.turns(s)) {
				p.measured(Line{ID: p.id("source", e.Name, s), Kind: SourceVolts, Name: e.Name, Unit: Volts, Probe: Probe{Setting: s, A: e.A, B: e.B, Element: -1}})
			}
		}
		for _, d := range p.f.Harness.Devices {
			if low := p.n.Low(d); d.Is(kinds.Supply, "tap") && low >= 0 {
				p.tap(d.Name, d.Terminals[0].Index, low, s)
			}
		}
	}
}

// tap plans a tap's volts where its circuit is live.
func (p *planner) tap(name string, out, low, s int) {
	if p.clean.Point(s).Alive(out) && p.clean.Point(s).Volts(out)-p.clean.Point(s).Volts(low) > deadMostV {
		p.measured(Line{ID: p.id("source", name, s), Kind: SourceVolts, Name: name, Unit: Volts, Probe: Probe{Setting: s, A: out, B: low, Element: -1}})
	}
}

// loads plans the volts of every new load in every mode in which it is on.
func (p *planner) loads() {
	for _, s := range p.powered() {
		p.eachLoad(func(i int, e *network.Element) {
			if p.f.On(p.clean.Point(s), i) {
				p.measured(Line{ID: p.id("volts", e.Name, s), Kind: LoadVolts, Name: e.Name, Unit: Volts, Note: p.leastNote(e), Probe: Probe{Setting: s, A: e.A, B: e.B, Element: -1}})
			}
		})
	}
}

// leastNote says what a load needs at least, where it says so.
func (p *planner) leastNote(e *network.Element) string {
	if e.Device == nil || !e.Device.Has("least") {
		return ""
	}
	v, _ := e.Device.SI("least")
	return fmt.Sprintf("it needs %g V", v)
}
