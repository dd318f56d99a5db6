package rules

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/protect"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "protection/oversized",
	Severity: finding.Error,
	Summary:  "a device's rating above what the weakest wire or pigtail that it alone protects may carry, or above a load's `fuse most`",
	Why: "An overload between the wire's ampacity and the device's rating goes on for ever: the wire cooks and the device stays whole. " +
		"A device protects the wire, not the load.",
	Needs: "The rating, and gauge, insulation and ambient of the wires behind it. A wire that a smaller device upstream also protects counts for that one; one behind a link is protection/slow's to judge. " +
		"A pigtail's insulation is taken as 90 degC, its ambient as its place's.",
	Limits: []Limit{
		{"land", "above 100 % a warning, above 125 % an error, of the smaller of Table 5 at the insulation's class and at its 90 degC column, times the ambient factor (holders and terminals are the limit: trade judgement, no published source)", "AC 43.13-1B; 33 CFR 183.425", "11-48; Table 5", "seen"},
		{"cfr183", "above 150 % an error, below 50 V", "33 CFR 183.455", "(c)(1)", "seen"},
		{"ac43", "above 100 % an error", "AC 43.13-1B", "11-48", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/undersized", "protection/slow"},
	Bad: `harness lamps { system 12 V; practice land; wire gxl }
zone  cab   { ambient -20..40 degC }
place shelf in cab
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 30 A; covered }  # want protection/oversized
load led lamp       { at shelf; draws 60 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    6 mm2   red   0.15 m
wire w2 f1.out   -> lamp.pos 1 mm2   red   1 m
wire w3 lamp.neg -> main.neg 6 mm2   black 1 m
mode lit { for 1 h }
`,
	Good: `harness lamps { system 12 V; practice land; wire gxl }
zone  cab   { ambient -20..40 degC }
place shelf in cab
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 15 A; covered }
load led lamp       { at shelf; draws 60 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    6 mm2   red   0.15 m
wire w2 f1.out   -> lamp.pos 1 mm2   red   1 m
wire w3 lamp.neg -> main.neg 1.5 mm2 black 1 m
mode lit { for 1 h }
`,
	Check: checkOversized,
	Long:  true,
})

// guarded is the weakest thing that a device alone protects: a wire, or a load's
// pigtail.
type guarded struct {
	device *network.Device
	amps   float64       // that it may carry
	wire   *harness.Wire // nil of a pigtail
	load   *harness.Device
}

func (g guarded) name() string {
	if g.wire != nil {
		return g.wire.Name
	}
	return g.load.Name
}

func (g guarded) place() finding.Place {
	if g.wire != nil {
		return g.wire.Origin.Place()
	}
	return g.load.Origin.Place()
}

func (c *Context) rating(g guarded) tables.Rating {
	if g.wire != nil {
		r, _ := c.DeviceAmpacity(g.wire)
		return r
	}
	r, _ := c.pigtail(g.load)
	return r
}

func checkOversized(c *Context) {
	weakest, fit := c.weakest(), sync.OnceValue(c.newFitting)
	for _, i := range c.fuseElements() {
		if g, ok := weakest[c.Network.Elements[i].Fuse]; ok {
			c.oversized(g, fit)
		}
	}
	c.plates()
}

// weakest is, for every device, the weakest that it alone protects.
func (c *Context) weakest() map[*network.Device]guarded {
	weakest, amps := make(map[*network.Device]guarded, len(c.fuseElements())), c.deviceAmps()
	var devices []*network.Device
	for _, i := range c.of(network.Wire) {
		w := c.Network.Elements[i].Wire
		if devices = answering(devices[:0], c.guards(w)); len(devices) > 0 && !c.tooHotThere(w) {
			c.weigh(w, amps[i], func(g guarded) {
				for _, d := range devices {
					if old, ok := weakest[d]; !ok || g.amps < old.amps {
						g.device = d
						weakest[d] = g
					}
				}
			})
		}
	}
	return weakest
}

// weigh hands over a wire, which may carry so much beside a device, and the
// pigtails that it lands on.
func (c *Context) weigh(w *harness.Wire, amps float64, hand func(guarded)) {
	if math.IsNaN(amps) {
		c.WaitForAmpacity(w)
	} else {
		hand(guarded{amps: amps, wire: w})
	}
	for _, e := range w.Ends {
		if e.Terminal == nil || !e.Terminal.Device.Is(kinds.Load) || e.Terminal.Name == "neg" {
			continue
		}
		load := e.Terminal.Device
		if r, ok := c.pigtail(load); ok {
			hand(guarded{amps: r.Amps, load: load})
		}
	}
}

// answering adds to a list the devices that answer for what ways reach, each once.
func answering(list []*network.Device, paths []protect.Path) []*network.Device {
	for _, p := range paths {
		if d := facts.Answering(p); d != nil && !slices.Contains(list, d) {
			list = append(list, d)
		}
	}
	return list
}

// pigtailC is the class that a load's own lead is taken to have.
const pigtailC = 90

func (c *Context) pigtail(d *harness.Device) (tables.Rating, bool) {
	args, ok := d.Args("lead")
	a, given := args.Get("")
	if !ok || !given || d.At == nil || d.At.Zone == nil || !d.At.Zone.Known {
		return tables.Rating{}, false
	}
	return c.Practice.DeviceAmpacity(kinds.Size(a.Lo).AreaMM2(), pigtailC, d.At.Zone.MostC)
}

func (c *Context) oversized(g guarded, fit func() *fitting) {
	share := 100 * g.device.RatingA / g.amps
	for _, grade := range []struct {
		name     string
		severity finding.Severity
	}{{"error", finding.Error}, {"warning", finding.Warning}} {
		l, ok := c.Practice.Limit("device_wire", grade.name)
		if !ok || share <= l.Value*(1+1e-9) {
			continue
		}
		if grade.severity == finding.Error && tapped(g.device) && g.wire != nil {
			return // tap/unprotected says it of the wire
		}
		limit := g.amps * l.Value / 100
		c.Report(finding.Finding{
			Severity: grade.severity, At: deviceAt(g.device), Subject: g.device.Name,
			Message:  fmt.Sprintf("`%s` is %s, and the weakest that it alone protects, `%s`, may carry %s", g.device.Name, amps(g.device.RatingA), g.name(), amps(g.amps)),
			Figures:  []string{fmt.Sprintf("%s: %s", g.name(), c.rating(g)), shareOf(share, l.Value)},
			Measured: &g.device.RatingA, Limit: &limit, Unit: "A", Source: source(l.Source),
			Related: []finding.Related{{Place: g.place(), Message: "the weakest that it protects"}},
			Fix:     c.fitDevice(g, fit),
		})
		return
	}
}

// deviceAt is where a protective device is declared: a panel's way at its own
// setting.
func deviceAt(d *network.Device) finding.Place {
	if d.Way == nil {
		return d.Of.Origin.Place()
	}
	for _, args := range d.Of.Given("way") {
		if args.RepeatKey() == d.Way.Name {
			return finding.Place{File: d.Of.Origin.File, Span: args.Key.Join(args.List[0].Span)}
		}
	}
	return d.Of.Origin.Place()
}

// fitDevice is a smaller device where one carries the load, else a thicker
// wire.
func (c *Context) fitDevice(g guarded, fit func() *fitting) *finding.Fix {
	if fix := fit().refit(g.device); fix != nil || g.wire == nil {
		return fix
	}
	fix, _ := c.thicker(g.wire, func(s tables.Size) bool {
		cable, _ := g.wire.Cable()
		ambient := c.Wire(g.wire).AmbientC
		r, ok := c.Practice.DeviceAmpacity(s.AreaMM2(), cable.TemperatureC, *ambient)
		return ok && c.Bundled(g.wire, r).Amps >= g.device.RatingA
	})
	return fix
}

// plates judges what loads say of the greatest fuse that they allow.
func (c *Context) plates() {
	for _, w := range c.Harness.Wires {
		for _, e := range w.Ends {
			if e.Terminal == nil || !e.Terminal.Device.Is(kinds.Load) || e.Terminal.Name == "neg" {
				continue
			}
			most, ok := e.Terminal.Device.SI("fuse")
			if !ok {
				continue
			}
			for _, p := range c.guards(w) {
				if d := facts.Answering(p); d != nil && d.RatingA > most {
					c.abovePlate(d, e.Terminal.Device, most)
				}
			}
		}
	}
}

func (c *Context) abovePlate(d *network.Device, load *harness.Device, most float64) {
	c.Report(finding.Finding{
		At: deviceAt(d), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` is %s, and the data plate of `%s` allows %s", d.Name, amps(d.RatingA), load.Name, amps(most)),
		Measured: &d.RatingA, Limit: &most, Unit: "A", Source: "the load's data plate (`fuse most`)",
		Related: []finding.Related{{Place: load.Origin.Place(), Message: "the load"}},
	})
}

// shareOf says what share of an ampacity a device is; where the air is as hot as
// the insulation bears, nothing is left to take a share of.
func shareOf(share, allowed float64) string {
	if math.IsInf(share, 1) {
		return "the air there is as hot as the insulation bears: no device is small enough"
	}
	return fmt.Sprintf("the device is %s %% of it, and %s %% is allowed", number(share), number(allowed))
}
