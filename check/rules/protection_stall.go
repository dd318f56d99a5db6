package rules

import (
	"fmt"
	"math"
	"sync"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "protection/stall",
	Severity: finding.Warning,
	Summary:  "at a motor's stall current its device takes more than 60 s to open, or never does",
	Why: "A jammed pump or a frozen wiper draws its stall current for as long as it is on. " +
		"Its winding burns within a minute or two, and a fuse that is sized for the wire alone sits it out.",
	Needs: "`stalls`; where it is not said, six times what the motor draws. It is capped by the greatest output of a converter or alternator that alone feeds it; what the wires let through is not counted. " +
		"The device that opens first on the way from a source answers for the motor, at its slowest.",
	Limits: []Limit{
		{"", "60 s (trade judgement, no published source)", "common practice", "trade judgement", "trade judgement"},
		{"", "a fuse's slowest opening time", "ISO 8820-3", "operating time", "memory"},
		{"", "a breaker's slowest opening time", "SAE J553", "operating time", "memory"},
		{"", "6 × the steady current where `stalls` is not said", "common practice", "inrush against steady current", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/slow", "protection/inrush", "protection/reset"},
	Bad: shedWith(`protection fuse f2  { at shelf; rating 20 A; covered }  # want protection/stall
load motor bilge    { at shelf; draws 4 A; drives pump; least 9 V; meant always }
wire w4 main.pos  -> f2.in     2.5 mm2 red   0.15 m
wire w5 f2.out    -> bilge.pos 2.5 mm2 red   1 m
wire w6 bilge.neg -> main.neg  2.5 mm2 black 1 m
`),
	Good: shedWith(`protection fuse f2  { at shelf; rating 10 A; covered }
load motor bilge    { at shelf; draws 4 A; drives pump; least 9 V; meant always }
wire w4 main.pos  -> f2.in     2.5 mm2 red   0.15 m
wire w5 f2.out    -> bilge.pos 2.5 mm2 red   1 m
wire w6 bilge.neg -> main.neg  2.5 mm2 black 1 m
`),
	Check: checkStall,
})

// stall is a motor's stall and the device that answers for it.
type stall struct {
	device *network.Device
	motor  *network.Element
	amps   float64
	opensS float64
}

func checkStall(c *Context) {
	l, ok := c.Practice.Limit("stall", "")
	if !ok {
		return
	}
	worst := map[*network.Device]stall{}
	c.eachStall(func(s stall) {
		if old, ok := worst[s.device]; s.opensS > l.Value && (!ok || s.opensS > old.opensS) {
			worst[s.device] = s
		}
	})
	fit := sync.OnceValue(c.newFitting)
	for _, i := range c.fuseElements() {
		if s, ok := worst[c.Network.Elements[i].Fuse]; ok {
			c.stalled(s, l.Value, source(l.Source), fit)
		}
	}
}

// eachStall hands over every motor's stall with the device that answers for it.
func (c *Context) eachStall(hand func(stall)) {
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if !e.Device.Is(kinds.Load, "motor") || e.Load.Hidden() {
			continue
		}
		for _, s := range c.stalls(i) {
			hand(s)
		}
	}
}

// stalls lists, for each way to a motor, the device that opens first.
func (c *Context) stalls(element int) []stall {
	e := &c.Network.Elements[element]
	var list []stall
	for _, p := range c.atNode(c.feedNode(element)) {
		amps := stallAmps(e)
		if s := c.Network.Elements[p.Source].Source; s.Sort != "battery" {
			amps = min(amps, s.OutputA)
		}
		first := stall{motor: e, amps: amps, opensS: math.Inf(1)}
		for _, d := range p.Alone {
			t, ok := timed(d, d.RatingA)
			if opens := t.SlowestSeconds(amps); ok && (first.device == nil || opens <= first.opensS) {
				first.device, first.opensS = d, opens
			}
		}
		if first.device != nil && !c.alsoByBattery(element, p.Source, first.device) {
			list = append(list, first)
		}
	}
	return list
}

// alsoByBattery reports whether an alternator's or converter's share need not
// be looked at alone: a battery feeds through the same device.
func (c *Context) alsoByBattery(element, source int, d *network.Device) bool {
	if c.Network.Elements[source].Source.Sort == "battery" {
		return false
	}
	for _, p := range c.atNode(c.feedNode(element)) {
		if c.Network.Elements[p.Source].Source.Sort == "battery" && last(p.Chain) == d {
			return true
		}
	}
	return false
}

// stallAmps is what a motor draws when it is held.
func stallAmps(e *network.Element) float64 {
	if e.Device.Has("stalls") {
		amps, _ := e.Device.SI("stalls")
		return amps
	}
	const usual = 6 // common practice: a motor's first current over its steady one
	return usual * e.Load.AmpsAtRated()
}

func (c *Context) stalled(s stall, limit float64, origin string, fit func() *fitting) {
	d := s.device
	t, _ := timed(d, d.RatingA)
	f := finding.Finding{
		At: deviceAt(d), Subject: d.Name, Measured: &s.opensS, Limit: &limit, Unit: "s",
		Source:  origin + "; " + source(t.Source()),
		Related: []finding.Related{{Place: s.motor.Device.Origin.Place(), Message: "the motor"}},
		Fix:     fit().refit(d),
	}
	ends := "may take " + number(s.opensS) + " s to open"
	if math.IsInf(s.opensS, 1) {
		least := mustOpenA(t)
		f.Figures = append(f.Figures, "it must open from "+amps(least)+" on")
		f.Measured, f.Limit, f.Unit, ends = &s.amps, &least, "A", "need not open at that at all"
	}
	f.Message = fmt.Sprintf("`%s` draws %s when it is held, and `%s`, a %s, %s", s.motor.Name, amps(s.amps), d.Name, sized(d), ends)
	if !s.motor.Device.Has("stalls") {
		f.Figures = append(f.Figures, "`stalls` is not declared: six times what it draws is taken")
	}
	if f.Fix == nil {
		f.Figures = append(f.Figures, "give the motor a device of its own, near to what it draws, or one with a thermal switch in it")
	}
	c.Report(f)
}
