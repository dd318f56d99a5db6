package rules

import (
	"fmt"
	"math"

	"hame/check/states"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "protection/order",
	Severity: finding.Warning,
	Summary:  "an upstream device can open before the one next to the fault",
	Why: "One chafed lamp wire then takes the whole panel with it, radio and work lamps too, " +
		"and whoever looks for the fault finds the one fuse that tells nothing.",
	Needs: "Pairs of devices in series, one right behind the other, where no battery feeds the fault past the first. At every current up to the greatest that a short right behind the second one draws, its slowest time must be below the first one's fastest, which carries the other loads' worst as well. " +
		"Beyond the last gate the let-through I²t of that gate holds. For that greatest current `resistance` or `cranking` of the battery is needed, but only where some current is out of order. " +
		"For breakers and glass fuses the standards set no fastest time: they are taken to be in order behind which a smaller rating stands.",
	Limits: []Limit{
		{"", "fastest and slowest opening times of fuses", "ISO 8820-3", "operating time", "memory"},
		{"", "of strips and posts", "ISO 8820-5", "operating time", "memory"},
		{"", "of breakers", "SAE J553", "operating time", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/slow", "protection/breaking"},
	Bad:     orderExample("15 A; covered }  # want protection/order"),
	Good:    orderExample("50 A; family post; covered }"),
	Watch:   watchOrder,
	Check:   checkOrder,
	Long:    true,
})

func orderExample(first string) string {
	return `harness cab { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating ` + first + `
protection fuse f2  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 60 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    10 mm2 red   0.15 m
wire w2 f1.out   -> f2.in    10 mm2 red   0.5 m
wire w3 f2.out   -> lamp.pos 2.5 mm2 red  1 m
wire w4 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`
}

// watchOrder keeps the most that the other loads behind a first device draw while
// a fault behind the next one would be fed through both.
func watchOrder(c *Context) func(*states.Point) {
	list := c.pairs()
	c.kept = list
	return func(p *states.Point) {
		for _, x := range list {
			if c.joined(p, x) {
				x.otherA = max(x.otherA, math.Abs(p.Amps(x.first))-math.Abs(p.Amps(x.next)))
			}
		}
	}
}

// joined: no open contact parts the two devices of a pair. What lies between
// them drops far less than a quarter of the system's volts.
func (c *Context) joined(p *states.Point, x *pair) bool {
	const parted = 0.25
	first, next := c.Network.Elements[x.first].A, c.Network.Elements[x.next].A
	return p.Alive(next) && math.Abs(p.Volts(first)-p.Volts(next)) < parted*c.Harness.SystemV
}

// disorder is a first device with those behind it that it may open before.
type disorder struct {
	disorderAt
	pair  *pair
	names []string
}

func checkOrder(c *Context) {
	list, _ := c.kept.([]*pair)
	found := map[int]*disorder{}
	for _, x := range list {
		if c.Survey.Method == "bound" {
			x.otherA = max(x.otherA, c.Survey.Worst[x.first].Amps-c.Survey.Worst[x.next].Amps)
		}
		first, next := c.Network.Elements[x.first].Fuse, c.Network.Elements[x.next].Fuse
		at, broken := c.upsetAt(x, first, next)
		switch {
		case !broken:
			continue
		case at.lacks != nil:
			c.Wait(first.Name, *at.lacks, c.declared(*at.lacks))
			continue
		case found[x.first] == nil:
			found[x.first] = &disorder{pair: x, disorderAt: at}
		}
		found[x.first].names = append(found[x.first].names, next.Name)
	}
	for _, i := range c.fuseElements() {
		if d := found[i]; d != nil {
			c.disordered(d)
		}
	}
}

func (c *Context) disordered(d *disorder) {
	first, next := c.Network.Elements[d.pair.first].Fuse, c.Network.Elements[d.pair.next].Fuse
	up, _ := timed(first, first.RatingA)
	down, _ := timed(next, next.RatingA)
	opens, slowest := up.FastestSeconds(d.amps+d.otherA), down.SlowestSeconds(d.amps)
	f := finding.Finding{
		At: deviceAt(first), Subject: first.Name,
		Message: fmt.Sprintf("`%s`, a %s, can open before `%s`, a %s, on a fault behind that", first.Name, sized(first), next.Name, sized(next)),
		Figures: []string{
			fmt.Sprintf("at a fault of %s, with %s of other loads through `%s`", amps(d.amps), amps(d.otherA), first.Name),
			fmt.Sprintf("`%s` may open after %s s, `%s` only after %s s", first.Name, number(opens), next.Name, number(slowest)),
		},
		Measured: &opens, Limit: &slowest, Unit: "s", Source: source(up.Source()),
		Related: []finding.Related{{Place: deviceAt(next), Message: "the one next to the fault"}},
	}
	if len(d.names) > 1 {
		f.Figures = append(f.Figures, "the same with "+enumerate(d.names[1:]))
	}
	f.Figures = append(f.Figures, "take a bigger or slower first device, if the wire behind it allows, or a smaller one behind")
	c.Report(f)
}
