package rules

import (
	"fmt"
	"math"
	"sync"

	"hame/check/network"
	"hame/check/protect"
	"hame/check/trip"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "protection/inrush",
	Severity: finding.Warning,
	Summary:  "a declared start current and time reaches the device's fastest opening time",
	Why: "A motor that starts, or a lamp that is cold, takes several times its current for a moment. " +
		"A fuse that may open within that moment does so one morning in ten, and a bigger one is put in.",
	Needs: "`starts A for TIME` of the load: with none, it is taken to start at what it draws. One load starts at a time, while the others behind the device draw their worst. " +
		"The device is taken at its fastest. For breakers and glass fuses the standards set no fastest time: they are taken to hold.",
	Limits: []Limit{
		{"", "a fuse's fastest opening time", "ISO 8820-3", "operating time", "memory"},
		{"", "a strip's or post's fastest opening time", "ISO 8820-5", "operating time", "memory"},
		{"", "a link's melting time from its ambient", "Onderdonk's formula", "", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/stall", "protection/loaded"},
	Bad: shedWith(`protection fuse f2  { at shelf; rating 7.5 A; covered }  # want protection/inrush
load motor bilge    { at shelf; draws 4 A; drives pump; starts 20 A for 0.2 s; least 9 V; meant always }
wire w4 main.pos  -> f2.in     2.5 mm2 red   0.15 m
wire w5 f2.out    -> bilge.pos 2.5 mm2 red   1 m
wire w6 bilge.neg -> main.neg  2.5 mm2 black 1 m
`),
	Good: shedWith(`protection fuse f2  { at shelf; rating 15 A; covered }
load motor bilge    { at shelf; draws 4 A; drives pump; starts 20 A for 0.2 s; least 9 V; meant always }
wire w4 main.pos  -> f2.in     2.5 mm2 red   0.15 m
wire w5 f2.out    -> bilge.pos 2.5 mm2 red   1 m
wire w6 bilge.neg -> main.neg  2.5 mm2 black 1 m
`),
	Check: checkInrush,
})

// start is a load that starts behind a device.
type start struct {
	load   *harness.Device
	amps   float64 // through the device, the others' with it
	loadA  float64
	timeS  float64
	opensS float64 // the device at its fastest
	held   bool    // the device lasts it out
}

// margin is how much of the device's time is left; below 1 it may open.
func (s start) margin() float64 { return s.opensS / s.timeS }

func checkInrush(c *Context) {
	worst := map[*network.Device]start{}
	c.eachStart(func(d *network.Device, s start) {
		if old, ok := worst[d]; !s.held && (!ok || s.margin() < old.margin()) {
			worst[d] = s
		}
	})
	fit := sync.OnceValue(c.newFitting)
	for _, i := range c.fuseElements() {
		if s, ok := worst[c.Network.Elements[i].Fuse]; ok {
			c.inrush(c.Network.Elements[i].Fuse, s, fit)
		}
	}
}

// eachStart hands over every declared start with each device that it goes
// through.
func (c *Context) eachStart(hand func(*network.Device, start)) {
	of := c.elementsOfDevices()
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if !e.Device.Is(kinds.Load) || e.Load.Hidden() {
			continue
		}
		args, ok := e.Device.Args("starts")
		loadA, _ := args.SI("")
		timeS, timed := args.SI("for")
		if !ok || !timed {
			continue
		}
		for d := range chained(c.atNode(c.feedNode(i))) {
			hand(d, c.starting(of[d], i, loadA, timeS))
		}
	}
}

// elementsOfDevices finds the element of each protective device.
func (c *Context) elementsOfDevices() map[*network.Device]int {
	of := map[*network.Device]int{}
	for _, i := range c.fuseElements() {
		of[c.Network.Elements[i].Fuse] = i
	}
	return of
}

// chained is every device on some ways.
func chained(paths []protect.Path) map[*network.Device]bool {
	set := map[*network.Device]bool{}
	for _, p := range paths {
		for _, d := range p.Chain {
			set[d] = true
		}
	}
	return set
}

// starting is a load's start through a device. It is held where the device
// lasts it out, or nothing says how fast that may be.
func (c *Context) starting(device, load int, loadA, timeS float64) start {
	d := c.Network.Elements[device].Fuse
	others := max(0, c.Survey.Worst[device].Amps-c.Survey.Worst[load].Amps)
	s := start{load: c.Network.Elements[load].Device, amps: loadA + others, loadA: loadA, timeS: timeS}
	t, ok := timed(d, d.RatingA)
	s.opensS = t.FastestSeconds(s.amps)
	s.held = !ok || !t.FastestKnown() || holdsOut(t, s)
	return s
}

func holdsOut(t trip.Device, s start) bool {
	opens := t.FastestSeconds(s.amps)
	return math.IsInf(opens, 1) || opens > s.timeS
}

func (c *Context) inrush(d *network.Device, s start, fit func() *fitting) {
	t, _ := timed(d, d.RatingA)
	f := finding.Finding{
		At: deviceAt(d), Subject: d.Name,
		Message: fmt.Sprintf("`%s` starts at %s for %s s, and `%s`, a %s, may open after %s s at that", s.load.Name, amps(s.loadA),
			number(s.timeS), d.Name, sized(d), number(s.opensS)),
		Measured: &s.timeS, Limit: &s.opensS, Unit: "s", Source: source(t.Source()),
		Related: []finding.Related{{Place: s.load.Origin.Place(), Message: "the load that starts"}},
		Fix:     fit().refit(d),
	}
	if others := s.amps - s.loadA; others > 0.01 {
		f.Figures = append(f.Figures, "with "+amps(others)+" of the other loads: "+amps(s.amps))
	}
	if f.Fix == nil {
		f.Figures = append(f.Figures, "take a slower device (a maxi or strip), or thicker wire and a bigger one")
	}
	c.Report(f)
}
