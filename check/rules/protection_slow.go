package rules

import (
	"fmt"
	"math"
	"sync"

	"hame/check/faults"
	"hame/check/network"
	"hame/check/protect"
	"hame/check/trip"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "protection/slow",
	Severity: finding.Error,
	Summary:  "at a short at the wire's far end the device opens too late for the conductor, or never",
	Why: "A long thin wire lets little current into a short, and a big fuse takes its time over little current. " +
		"Meanwhile the copper heats until the insulation runs off it, and the wires beside it go too.",
	Needs: "`resistance` or `cranking` of the battery (`resistance`, where it is lithium), and length, gauge, insulation and ambient of the wires; " +
		"`gauge` and `run` of a borrowed circuit, and the supply that it hangs on. " +
		"The current is the least: battery at the least charge of any mode, wires as hot as their insulation bears, the load's own return or the nearest one; contacts count as closed. " +
		"Device and wire start so: the device at its slowest, the wire at its temperature class. An alternator or converter whose output the wire carries is no danger to it; " +
		"where a battery feeds the wire through the same device, the battery's current decides.",
	Limits: []Limit{
		{"", "a fuse's slowest opening time", "ISO 8820-3", "operating time", "memory"},
		{"", "a strip's or post's slowest opening time", "ISO 8820-5", "operating time", "memory"},
		{"", "a breaker's slowest opening time", "SAE J553", "operating time", "memory"},
		{"", "the conductor's (k S)² up to 5 s, the heat model beyond", "IEC 60364-4-43", "434.5.2", "seen (k from memory)"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/oversized", "protection/stall", "protection/breaking"},
	Bad:     slowExample("30 A; covered }  # want protection/slow"),
	Good:    slowExample("7.5 A; covered }"),
	Check:   checkSlow,
})

// slowExample is a lamp at the end of a long thin wire.
func slowExample(fuse string) string {
	return `harness mast { system 12 V; practice cfr183; wire gxl; slack 100 mm }
zone  deck  { ambient 0..40 degC }
place shelf in deck
place top   in deck
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating ` + fuse + `
load led lamp       { at top; draws 12 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 16 AWG red   16 m
wire w3 lamp.neg -> main.neg 16 AWG black 16 m
mode lit { for 1 h }
`
}

// slowRace is the race that a device loses by the most.
type slowRace struct {
	device *network.Device
	wire   *harness.Wire
	fault  faults.Fault
	race   trip.Race
}

// lostBy is how many times too late the device opens.
func (s slowRace) lostBy() float64 {
	if math.IsInf(s.race.OpensS, 1) {
		return math.Inf(1)
	}
	return s.race.OpensS / max(s.race.WithstandS, 1e-9)
}

func checkSlow(c *Context) {
	worst := map[*network.Device]slowRace{}
	c.eachRace(func(s slowRace) {
		switch old, ok := worst[s.device]; {
		case s.fault.LeastLacks != nil && s.fault.LeastLacks.Setting == "length": // graph/unreachable says so
		case s.fault.LeastLacks != nil:
			c.Wait(s.device.Name, *s.fault.LeastLacks, c.declared(*s.fault.LeastLacks))
		case s.race.Protected:
		case !ok || s.lostBy() > old.lostBy():
			worst[s.device] = s
		}
	})
	for _, w := range c.Harness.Wires {
		if _, ok := conductor(w, c); !ok && len(c.Protect.Wires[w].By) > 0 {
			c.WaitForAmpacity(w)
		}
	}
	fit := sync.OnceValue(c.newFitting)
	for _, i := range c.fuseElements() {
		if s, ok := worst[c.Network.Elements[i].Fuse]; ok {
			c.slow(s, fit)
		}
	}
}

// eachRace lets the devices on the way to each wire race it, and hands over the
// race of the one that answers for it.
func (c *Context) eachRace(hand func(slowRace)) {
	for _, w := range c.Harness.Wires {
		wire, known := conductor(w, c)
		if !known {
			continue
		}
		shorts := c.Faults.At(w)
		for _, p := range c.guards(w) {
			for _, f := range shorts {
				if f.Source != p.Source || c.batteryToo(w, p) {
					continue
				}
				amps, harmless := c.shortAmps(w, f)
				if best, found := quickest(p, wire, amps); found && !harmless {
					best.wire, best.fault = w, f
					hand(best)
				}
			}
		}
	}
}

// batteryToo reports whether a path is that of an alternator or converter, and
// a battery feeds the wire through the same last device.
func (c *Context) batteryToo(w *harness.Wire, p protect.Path) bool {
	if c.Network.Elements[p.Source].Source.Sort == "battery" {
		return false
	}
	for _, other := range c.Protect.Wires[w].Paths {
		if c.Network.Elements[other.Source].Source.Sort == "battery" && !other.Bare && last(other.Chain) == last(p.Chain) {
			return true
		}
	}
	return false
}

// last is the device next to the wire, or nil.
func last(chain []*network.Device) *network.Device {
	if len(chain) == 0 {
		return nil
	}
	return chain[len(chain)-1]
}

// shortAmps is the current to race at. What a source cannot give more of than
// the wire carries lastingly does it no harm.
func (c *Context) shortAmps(w *harness.Wire, f faults.Fault) (amps float64, harmless bool) {
	if c.Network.Elements[f.Source].Source.Sort == "battery" {
		return f.LeastA, false
	}
	r, ok := c.Ampacity(w)
	if ok && f.MostA <= r.Amps {
		return 0, true
	}
	if ok && f.LeastA <= r.Amps {
		return f.MostA, false
	}
	return f.LeastA, false
}

// conductor is a wire as a fault sees it; false where its insulation, gauge or
// ambient is not known.
func conductor(w *harness.Wire, c *Context) (trip.Conductor, bool) {
	cable, ok := w.Cable()
	ambientC := c.Wire(w).AmbientC
	if !ok || w.AreaMM2 == 0 || ambientC == nil {
		return trip.Conductor{}, false
	}
	return trip.ConductorOf(cable, w.Size, *ambientC), true
}

// quickest is the race of the device that opens first. Where a fault can get
// round every device of the way, the biggest of them opens last.
func quickest(p protect.Path, wire trip.Conductor, amps float64) (slowRace, bool) {
	devices, latest := p.Alone, false
	if len(devices) == 0 {
		devices, latest = p.Chain, true
	}
	var best slowRace
	for _, d := range devices {
		t, ok := timed(d, d.RatingA)
		if !ok {
			continue
		}
		r := t.Against(wire, amps)
		if best.device == nil || latest == (r.OpensS > best.race.OpensS) {
			best = slowRace{device: d, race: r}
		}
	}
	return best, best.device != nil
}

func (c *Context) slow(s slowRace, fit func() *fitting) {
	d := s.device
	wire, _ := conductor(s.wire, c)
	f := finding.Finding{
		At: deviceAt(d), Subject: d.Name,
		Message: fmt.Sprintf("a short at the far end of `%s` draws no more than %s, and %s", s.wire.Name, amps(s.race.Amps), s.verdict()),
		Figures: []string{
			fmt.Sprintf("the loop: feed %s mohm, return %s mohm, wires at their class temperature", number(1000*s.fault.FeedOhm), number(1000*s.fault.BackOhm)),
			fmt.Sprintf("%s %s starts at %s degC and may reach %s degC for a short time", s.wire.Size, s.wire.Insulation, number(wire.InsulationC), number(wire.FinalC)),
		},
		Unit:    "s",
		Source:  source(s.race.Source) + "; IEC 60364-4-43 434.5.2",
		Related: []finding.Related{{Place: s.wire.Origin.Place(), Message: "the wire that is lost"}},
		Fix:     fit().refit(d),
	}
	if !math.IsInf(s.race.OpensS, 1) {
		f.Measured = &s.race.OpensS
	}
	if !math.IsInf(s.race.WithstandS, 1) {
		f.Limit = &s.race.WithstandS
	}
	if f.Fix == nil {
		f.Figures = append(f.Figures, "take a quicker device, thicker wire, or a device of its own nearer to the end")
	}
	c.Report(f)
}

// verdict says how the race ends, in words.
func (s slowRace) verdict() string {
	name := fmt.Sprintf("`%s`, a %s,", s.device.Name, sized(s.device))
	if math.IsInf(s.race.OpensS, 1) {
		return name + " need not open at that at all"
	}
	return fmt.Sprintf("%s may take %s s to open; the wire stands it for %s s", name, number(s.race.OpensS), number(s.race.WithstandS))
}
