package rules

import (
	"fmt"
	"slices"

	"hame/check/facts"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "wire/drop",
	Severity: finding.Warning,
	Summary:  "too many volts lost between source and load and back",
	Why: "What the wires keep, the load does not get: lamps go dim, pumps run slow and hot, a relay chatters. The wire " +
		"itself stays cool, and no fuse ever tells.",
	Needs: "Gauge and length of every wire on the way. Judged in every declared mode in which the load is on, with all that the mode turns on; a load that no mode " +
		"runs is judged hot and low with as many switches closed as it runs with. The drop is that of wires, contacts, fuses and joints, without what a diode takes, from the source " +
		"that most of the current comes from, and back, with copper as warm as it is then (no warmer than its insulation bears; at 20 degC where no ambient is known). " +
		"The finding names the wire with the greatest share, once, with all loads that lose the most of their volts in it: thicken that one first. A wire above its ampacity is left to wire/undersized and ground/overloaded. " +
		"Under ac43 a mode of two minutes at most, and cranking, is intermittent; above 28 V the figures of 28 V hold.",
	Limits: []Limit{
		{"land", "3 % of the system's volts for a `critical` load, 10 % for others", "ABYC E-11", "3 % and 10 % circuits (as quoted)", "seen"},
		{"cfr183", "the same; the regulation sets none", "ABYC E-11", "3 % and 10 % circuits (as quoted)", "seen"},
		{"", "advice above 5 % (land, cfr183)", "common practice", "trade judgement", "common practice"},
		{"ac43", "0.5 V continuous and 1 V intermittent at 14 V, 1 V and 2 V at 28 V", "AC 43.13-1B", "Table 11-6", "seen; intermittent from memory"},
	},
	Since:   "0.1.0",
	Related: []string{"load/starved", "ground/offset", "wire/undersized"},
	Bad:     farLamp("1", "  # want wire/drop"),
	Good:    farLamp("4", ""),
	Watch:   watchDrop,
	Check:   checkDrop,
})

// farLamp is a lamp at the end of a long run, on one thin wire or none.
func farLamp(size, want string) string {
	return `harness yard { system 12 V; practice land; wire gxl; slack 100 mm }
zone  shed { ambient 0..40 degC }
place shelf, far_end in shed
bundle b1 shelf -> far_end 9 m { cover loom_pa; clamp every 400 mm }
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 5 A; covered }
load led lamp       { at far_end; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos ` + size + ` mm2 red` + want + `
wire w3 lamp.neg -> main.neg 4 mm2 black
mode lit { for 1 h }
`
}

// unrun keeps, for the loads that no declared mode runs, the hot and low
// position with the most switches closed that they run in.
type unrun struct {
	loads []int
	ran   map[int]bool
	most  map[int]int
	at    map[int]*states.Point
}

func watchDrop(c *Context) func(*states.Point) {
	u := &unrun{loads: c.dropLoads(), ran: map[int]bool{}, most: map[int]int{}, at: map[int]*states.Point{}}
	c.kept = u
	return func(p *states.Point) {
		closed := 1
		for _, throw := range p.Position.Throws {
			closed += min(throw, 1)
		}
		for _, i := range u.loads {
			switch {
			case u.ran[i] || !c.On(p, i):
			case p.Position.Corner == states.AsStated:
				u.ran[i] = true
			case p.Position.Corner == states.HotLow && closed > u.most[i]:
				u.most[i], u.at[i] = closed, p
			}
		}
	}
}

// dropLoads lists the elements that a drop is judged at: loads and converters,
// not coils nor what stands for the machine.
func (c *Context) dropLoads() []int {
	var list []int
	for _, i := range c.loads() {
		if e := &c.Network.Elements[i]; e.Load.Coil == nil && !e.Load.Hidden() {
			list = append(list, i)
		}
	}
	return list
}

func checkDrop(c *Context) {
	u := c.kept.(*unrun)
	var order []*harness.Wire
	lossy := map[*harness.Wire][]loss{}
	for _, i := range u.loads {
		l, ok := c.worstLoss(u, i)
		if !ok || l.severity == finding.Open || c.overAmpacity(l.wire) {
			continue
		}
		if lossy[l.wire] == nil {
			order = append(order, l.wire)
		}
		lossy[l.wire] = append(lossy[l.wire], l)
	}
	for _, w := range order {
		c.lossy(w, lossy[w])
	}
}

// overAmpacity: wire/undersized or ground/overloaded says so, and asks for a
// thicker wire.
func (c *Context) overAmpacity(w *harness.Wire) bool {
	f := c.Wire(w)
	return f.Ampacity != nil && f.WorstA != nil && *f.WorstA > f.Ampacity.Amps
}

// worstLoss is a load's drop where it is worst against its limit.
func (c *Context) worstLoss(u *unrun, load int) (loss, bool) {
	var worst loss
	found := false
	take := func(d facts.Drop, ok bool, p *states.Point, m *harness.Mode) {
		if !ok || !c.wayKnown(d) {
			return
		}
		if l, ok := c.judgeDrop(d, p, m); ok && (!found || l.share() > worst.share()) {
			worst, found = l, true
		}
	}
	for n, p := range c.Survey.Modes {
		if c.On(p, load) && !c.Shorted(p) {
			d, ok := c.DropIn(n, load)
			take(d, ok, p, c.Harness.Modes[n])
		}
	}
	if p := u.at[load]; p != nil && !u.ran[load] {
		d, ok := c.DropTo(p, load, func(w *harness.Wire) float64 { return c.BorneC(w, c.WorstC(w)) })
		take(d, ok, p, nil)
	}
	return worst, found
}

// wayKnown waits for the gauge or length of a wire on the way that lacks it.
func (c *Context) wayKnown(d facts.Drop) bool {
	return !slices.ContainsFunc(d.Way, func(s facts.Loss) bool { return !c.measured(s.Element, d.Load) })
}

// measured waits, for a load, for what a wire on its way lacks.
func (c *Context) measured(element, load int) bool {
	w := c.Network.Elements[element].Wire
	switch {
	case w == nil || w.AreaMM2 > 0 && w.HasLength:
		return true
	case w.AreaMM2 == 0:
		c.Wait(c.Network.Elements[load].Name, finding.Need{Name: w.Name, Setting: "gauge"}, w.Origin.Place())
	case w.Ends[0].Place() != nil && w.Ends[1].Place() != nil: // graph/unreachable says so
	default:
		c.waitForPlace(w)
	}
	return false
}

// lossy reports the loads that lose the most of their volts in one wire.
func (c *Context) lossy(w *harness.Wire, list []loss) {
	worst := 0
	for k, l := range list {
		if l.severity > list[worst].severity || l.severity == list[worst].severity && l.share() > list[worst].share() {
			worst = k
		}
	}
	l := list[worst]
	load := c.Network.Elements[l.Load]
	f := finding.Finding{
		At: w.Origin.Place(), Subject: w.Name, Severity: l.severity, Mode: l.where(),
		Message: fmt.Sprintf("`%s` takes the most of what `%s` loses on the way: %s V, %s %% of %s V, and %s", w.Name, load.Name,
			number(l.Volts), number(100*l.Volts/l.systemV), number(l.systemV), l.allowed()),
		Figures:  []string{c.greatestSteps(l.Drop)},
		Measured: &l.Volts, Limit: &l.limitV, Unit: "V", Source: source(l.limit.Source),
	}
	for k, other := range list {
		c.alsoLossy(&f, other, k == worst)
	}
	fix, unfixed := c.thickened(list)
	f.Fix, f.Figures = fix, append(f.Figures, unfixed...)
	c.Report(f)
}

// alsoLossy adds a load to a finding: as a place, and its figures unless they
// are those of the message.
func (c *Context) alsoLossy(f *finding.Finding, l loss, said bool) {
	const most = 8
	e := c.Network.Elements[l.Load]
	if len(f.Related) == most {
		f.Figures = append(f.Figures, "and more loads behind it")
	}
	if len(f.Related) > most {
		return
	}
	if !said {
		f.Figures = append(f.Figures, fmt.Sprintf("`%s` loses %s V, and %s", e.Name, number(l.Volts), l.allowed()))
	}
	if e.Device != nil {
		f.Related = append(f.Related, finding.Related{Place: e.Device.Origin.Place(), Message: "what it feeds"})
	}
}
