package rules

import (
	"fmt"
	"math"
	"sync"

	"hame/check/network"
	"hame/lang/finding"
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
		"where a battery feeds the wire through the same device, the battery's current decides. " +
		"A link that opens at all, and is four gauge numbers below its wire or more, is taken to be in time.",
	Limits: []Limit{
		{"", "a fuse's slowest opening time", "ISO 8820-3", "operating time", "memory"},
		{"", "a strip's or post's slowest opening time", "ISO 8820-5", "operating time", "memory"},
		{"", "a breaker's slowest opening time", "SAE J553", "operating time", "memory"},
		{"", "a link four gauge numbers below its wire", "trade practice", "", "seen"},
		{"", "the conductor's (k S)² up to 5 s, the heat model beyond", "IEC 60364-4-43", "434.5.2", "seen (k from memory)"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/oversized", "protection/stall", "protection/breaking"},
	Bad:     slowExample("30 A; covered }  # want protection/slow"),
	Good:    slowExample("7.5 A; covered }"),
	Check:   checkSlow,
	Long:    true,
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

func checkSlow(c *Context) {
	worst := map[*network.Device]*slowRace{}
	c.eachRace(func(s *slowRace) {
		switch lacks := s.fault.LeastLacks; {
		case lacks != nil && lacks.Setting == "length": // graph/unreachable says so
		case lacks != nil:
			c.Wait(s.device.Name, *lacks, c.declared(*lacks))
		case !s.inTime():
			s.run()
			if old, ok := worst[s.device]; !ok || s.lostBy() > old.lostBy() {
				kept := *s
				worst[s.device] = &kept
			}
		}
	})
	for _, w := range c.Harness.Wires {
		if !c.HasConductor(w) && len(c.Protect.Cover(w).By) > 0 {
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

func (c *Context) slow(s *slowRace, fit func() *fitting) {
	d := s.device
	wire, _ := c.Conductor(s.wire)
	f := finding.Finding{
		At: deviceAt(d), Subject: d.Name,
		Message: fmt.Sprintf("a short at the far end of `%s` draws no more than %s, and %s", s.wire.Name, amps(s.race.Amps), s.verdict()),
		Figures: []string{
			fmt.Sprintf("the loop: feed %s mohm, return %s mohm, wires at their class temperature", number(1000*s.fault.FeedOhm), number(1000*s.fault.BackOhm)),
			fmt.Sprintf("%s %s starts at %s degC and may reach %s degC for a short time", s.wire.Size, s.wire.Insulation, number(wire.InsulationC), number(wire.FinalC)),
		},
		Measured: &s.race.OpensS, Limit: &s.race.WithstandS, Unit: "s",
		Source:  source(s.race.Source) + "; IEC 60364-4-43 434.5.2",
		Related: []finding.Related{{Place: s.wire.Origin.Place(), Message: "the wire that is lost"}},
		Fix:     fit().refit(d),
	}
	if math.IsInf(s.race.OpensS, 1) {
		t, _ := timed(d, d.RatingA)
		least := mustOpenA(t)
		f.Figures = append(f.Figures, "it must open from "+amps(least)+" on")
		f.Measured, f.Limit, f.Unit = &s.race.Amps, &least, "A"
	}
	if f.Fix == nil {
		f.Figures = append(f.Figures, "take a quicker device, thicker wire, or a device of its own nearer to the end")
	}
	c.Report(f)
}

// verdict says how the race ends, in words.
func (s *slowRace) verdict() string {
	name := fmt.Sprintf("`%s`, a %s,", s.device.Name, sized(s.device))
	if math.IsInf(s.race.OpensS, 1) {
		return name + " need not open at that at all"
	}
	return fmt.Sprintf("%s may take %s s to open; the wire stands it for %s s", name, number(s.race.OpensS), number(s.race.WithstandS))
}
