package sheets

import (
	"math"
	"strings"

	"hame/check/network"
	"hame/check/sheet"
	"hame/check/states"
	"hame/check/wording"
	"hame/lang/harness"
)

var _ = register(Maker{
	Name: "loads", Title: "Load analysis",
	Summary: "What draws in each mode, what the alternator and the batteries give, and for how long they last",
	Make:    loads,
})

func loads(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	s.Add(sheet.Heading{Words: "Balance of each mode"}, p.balanceTable())
	if t := p.batteryTable(); len(t.Rows) > 0 {
		s.Add(sheet.Heading{Words: "How long the batteries last"}, t)
	}
	for _, words := range p.assumed() {
		s.Add(small(words))
	}
	for n, m := range p.Harness.Modes {
		s.Add(sheet.Heading{Words: "Loads in " + modeWords(m)})
		if why := p.unsolved(n); why != "" {
			s.Add(sheet.Text{Words: "Not worked out: " + why + "."})
			continue
		}
		s.Add(p.loadTable(n))
		if off := p.offIn(n); len(off) > 0 {
			s.Add(small("Draws nothing here: " + strings.Join(off, ", ") + "."))
		}
	}
	var wanted lacks
	p.undrawn(&wanted)
	wanted.into(s)
	return s
}

// undrawn notes the loads whose draw is not declared: no figure counts them.
func (p *Pack) undrawn(l *lacks) {
	for _, i := range p.loadElements() {
		if e := &p.Facts.Network.Elements[i]; unknownDraw(e) {
			l.say("the draw, counted as nothing, of", e.Name)
		}
	}
}

func unknownDraw(e *network.Element) bool { return !e.Load.Known && !e.Load.Hidden() }

// modeWords is a mode: "night_haul: key on, engine running, for 4 h".
func modeWords(m *harness.Mode) string {
	words := m.Name + ": key " + m.Key + ", engine " + m.Engine
	if m.ForS > 0 {
		return words + ", for " + span(m.ForS)
	}
	return words + ", without an end"
}

// span is a time as one speaks of it.
func span(s float64) string {
	switch {
	case s < 60:
		return wording.To(benchDigits, s) + " s"
	case s < 3600:
		return wording.To(benchDigits, s/60) + " min"
	}
	return wording.To(benchDigits, s/3600) + " h"
}

// unsolved says why a mode has no figures, "" where it has.
func (p *Pack) unsolved(n int) string {
	point := p.Facts.Survey.Modes[n]
	switch {
	case p.Facts.Shorted(point):
		return "in it a source is shorted, and its current would drown every other"
	case point.Failed != nil:
		return "the network has no solution in it"
	}
	return ""
}

// loadElements lists what draws: loads, coils, what the machine draws by itself.
// A converter's input stands for the loads behind it and is none.
func (p *Pack) loadElements() []int {
	var all []int
	for i := range p.Facts.Network.Elements {
		if e := &p.Facts.Network.Elements[i]; e.Kind == network.Load && e.Load.Sort != "converter" {
			all = append(all, i)
		}
	}
	return all
}

// draws reports whether a load draws more than what leaks past open contacts in
// the solver's eyes; one of unknown draw, whether it is fed.
func (p *Pack) draws(point *states.Point, i int) bool {
	const nothingA, fedV = 5e-5, 1
	if unknownDraw(&p.Facts.Network.Elements[i]) {
		return math.Abs(point.Across(i)) > fedV
	}
	return math.Abs(point.Amps(i)) > nothingA
}

func (p *Pack) loadTable(n int) *sheet.Table {
	t := &sheet.Table{Name: "loads_" + p.Harness.Modes[n].Name, Empty: "Nothing draws.", Columns: []sheet.Column{
		{Name: "load", Title: "load"},
		{Name: "kind", Title: "kind"},
		{Name: "place", Title: "place"},
		{Name: "whose", Title: "whose"},
		{Name: "volts_v", Title: "across it", Unit: "V", Right: true},
		{Name: "current_a", Title: "current", Unit: "A", Right: true},
		{Name: "power_w", Title: "power", Unit: "W", Right: true},
		{Name: "duty", Title: "duty"},
	}}
	point := p.Facts.Survey.Modes[n]
	sumA, sumW, sure := 0.0, 0.0, true
	for _, i := range p.loadElements() {
		if !p.draws(point, i) {
			continue
		}
		e := &p.Facts.Network.Elements[i]
		amps, volts := math.Abs(point.Amps(i)), math.Abs(point.Across(i))
		current, power := figure(amps), figure(amps*volts)
		if unknownDraw(e) {
			current, power, sure = sheet.Is(unknown), sheet.Is(unknown), false
		} else {
			sumA, sumW = sumA+amps, sumW+amps*volts
		}
		t.Rows = append(t.Rows, sheet.Row{Name: e.Device.Name, Cells: []sheet.Cell{
			sheet.Is(e.Name), sheet.Is(loadWords(e)), sheet.Is(placeOf(e.Device)), sheet.Is(own(e.Device.Existing)),
			figure(volts), current, power, sheet.Is(duty(e, p.Harness.Modes[n])),
		}})
	}
	if len(t.Rows) > 0 {
		total := sheet.Row{Total: true, Cells: []sheet.Cell{sheet.Is("all"), {}, {}, {}, {}, figure(sumA), figure(sumW), {}}}
		if !sure {
			total.Cells[0] = sheet.Is("all that are known")
		}
		t.Rows = append(t.Rows, total)
	}
	return t
}

// loadWords says what draws.
func loadWords(e *network.Element) string {
	switch e.Load.Sort {
	case "coil":
		return "relay coil"
	case "standby", "already":
		return "the machine itself"
	case "carries":
		return "the circuit's own loads"
	}
	return e.Load.Sort
}

// shortS: what lasts no longer counts as a short duty, two minutes as in AC
// 43.13-1B figure 11-3 (from memory).
const shortS = 120

// duty is how a load works in a mode.
func duty(e *network.Element, m *harness.Mode) string {
	switch {
	case m.Engine == "cranking":
		return "cranking"
	case e.Load.StandbyA > 0 && m.Key == "off":
		return "standby"
	case m.ForS > 0 && m.ForS <= shortS:
		return "short"
	}
	return "lasting"
}

// offIn names the loads that draw nothing in a mode.
func (p *Pack) offIn(n int) []string {
	var names []string
	for _, i := range p.loadElements() {
		if !p.draws(p.Facts.Survey.Modes[n], i) && !p.Facts.Network.Elements[i].Load.Hidden() {
			names = append(names, p.Facts.Network.Elements[i].Name)
		}
	}
	return names
}
