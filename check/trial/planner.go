package trial

import (
	"fmt"
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
)

// planner is a plan while it is made.
type planner struct {
	f       *facts.Facts
	n       *network.Network
	plan    *Plan
	clean   *Variant
	corners []*Variant
	names   []string // by node; "" for those that no probe can reach
	used    map[string]bool
	sound   []bool // by setting: it has a solution, and no dead short
}

func newPlanner(f *facts.Facts) *planner {
	p := &planner{f: f, n: f.Network, plan: &Plan{}, used: map[string]bool{}, names: make([]string, f.Network.Nodes)}
	for _, d := range f.Harness.Devices {
		for _, t := range d.Terminals {
			p.names[t.Index] = t.FullName()
		}
	}
	p.settings()
	p.plan.Model = &Model{Network: p.n, Settings: p.plan.Settings}
	p.clean = p.plan.Model.AsIs()
	copy(p.clean.points, f.Survey.Modes) // solved already
	p.corners = p.allCorners()
	p.soundness()
	return p
}

// allOff is the setting in which the key-off draw is measured where no mode is
// it.
const allOff = "key off, all switches open"

// settings are the declared modes, and all off where none of them is.
func (p *planner) settings() {
	resting := false
	for n, m := range p.f.Harness.Modes {
		p.plan.Settings = append(p.plan.Settings, Setting{m.Name, n, states.OfMode(m)})
		resting = resting || m.Key == "off" && m.Engine == "off" && len(m.Closed) == 0 && len(m.Throws) == 0
	}
	if !resting {
		const usualCharge = 0.8
		off := states.Position{Key: "off", Engine: "off", Corner: states.AsStated, Charge: usualCharge}
		p.plan.Settings = append(p.plan.Settings, Setting{allOff, -1, off})
	}
}

// soundness leaves settings out that have no solution or a dead short.
func (p *planner) soundness() {
	for i, s := range p.plan.Settings {
		point := p.clean.Point(i)
		_, short := p.f.ShortIn(point)
		p.sound = append(p.sound, point.Failed == nil && !short)
		if !p.sound[i] {
			p.lack("nothing is measured in %s: it has a dead short or no solution", s.Name)
		}
	}
}

// powered lists the settings that are measured in.
func (p *planner) powered() []int {
	var list []int
	for i := range p.plan.Settings {
		if p.sound[i] {
			list = append(list, i)
		}
	}
	return list
}

func (p *planner) cranks(setting int) bool {
	return p.plan.Settings[setting].Position.Engine == "cranking"
}

func (p *planner) turns(setting int) bool {
	e := p.plan.Settings[setting].Position.Engine
	return e == "idle" || e == "running"
}

// add takes a line, its figures rounded as they are printed.
func (p *planner) add(l Line) {
	if l.Probe.Setting >= 0 {
		l.Mode = p.plan.Settings[l.Probe.Setting].Name
	}
	if p.used[l.ID] {
		return // the same probes in the same state
	}
	p.used[l.ID] = true
	l.Low, l.High = l.Unit.below(l.Low), l.Unit.above(l.High)
	if l.Expect != nil {
		rounded := l.Unit.nearest(*l.Expect)
		l.Expect = &rounded
	}
	p.plan.Lines = append(p.plan.Lines, l)
}

// measured takes a line whose expected figure and band the model has; false
// where it has none, or a probe has no place.
func (p *planner) measured(l Line) bool {
	if !l.Probe.Amps && (p.names[l.Probe.A] == "" || p.names[l.Probe.B] == "") {
		return false
	}
	if !l.Probe.Amps {
		l.From, l.To = p.names[l.Probe.A], p.names[l.Probe.B]
	}
	value, ok := p.clean.Value(l.Probe)
	if !ok {
		return false
	}
	l.Expect = &value
	l.Low, l.High = p.band(l.Probe, value, l.Unit)
	p.add(l)
	return true
}

func (p *planner) lack(format string, args ...any) {
	p.plan.Lacks = append(p.plan.Lacks, fmt.Sprintf(format, args...))
}

// id is a line's name; the setting's comes last where a mode is one.
func (p *planner) id(what, name string, setting int) string {
	id := what + ":" + name
	if setting >= 0 && p.plan.Settings[setting].Mode >= 0 {
		id += ":" + p.plan.Settings[setting].Name
	}
	return id
}

// isNew: it is not the machine's own.
func isNew(e *network.Element) bool {
	return e.Wire != nil && !e.Wire.Existing || e.Wire == nil && e.Device != nil && !e.Device.Existing
}

// amps is the size of an element's current in a setting.
func (p *planner) amps(element, setting int) float64 {
	return math.Abs(p.clean.Point(setting).Amps(element))
}

// strongest is the setting in which an element carries the most of those that
// fit; false where it carries nothing in any.
func (p *planner) strongest(element int, fits func(setting int) bool) (int, bool) {
	best, most := -1, nothingA
	for _, s := range p.powered() {
		if a := p.amps(element, s); a > most && fits(s) {
			best, most = s, a
		}
	}
	return best, best >= 0
}

// nothingA is a current that no meter of a workshop shows.
const nothingA = 0.5e-3

func always(int) bool { return true }

// ended is a wire with both ends on terminals.
func ended(w *harness.Wire) bool { return w.Ends[0].Terminal != nil && w.Ends[1].Terminal != nil }
