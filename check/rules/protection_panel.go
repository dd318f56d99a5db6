package rules

import (
	"fmt"
	"math"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "protection/panel",
	Severity: finding.Error,
	Summary:  "all that a panel carries at once above its limit, a fuse above what its way or holder takes",
	Why: "Each way is fused and the panel as a whole is not: its bus bar and feed stud carry the sum, and are the first to brown. " +
		"A fuse bigger than its clips were made for heats them instead of opening.",
	Needs: "`limit` of a panel, and `each` for its ways; `holder` of a fuse. Where `each` or `holder` is not said, it is not judged. " +
		"What flows at once is the worst of every position that the operator can make; a bound where they are too many to solve each.",
	Limits: []Limit{
		{"", "the panel's `limit`, and its `each`", "the part's maker", "", "as declared"},
		{"", "the holder's `holder`", "the part's maker", "", "as declared"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/loaded", "ground/overloaded"},
	Bad: `harness cab { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 60 A; family post; covered }
protection panel p1 { at shelf; feed stud M6; limit 30 A; each 30 A; tabs 6.3; way 1 fuse 25 A; way 2 fuse 25 A; covered }  # want protection/panel
load heater left    { at shelf; draws 17 A at 12 V; least 9 V; meant always }
load heater right   { at shelf; draws 17 A at 12 V; least 9 V; meant always }
wire w1 main.pos  -> f1.in     10 mm2 red   0.15 m
wire w2 f1.out    -> p1.feed   10 mm2 red   0.5 m
wire w3 p1.1      -> left.pos  4 mm2  red   1 m
wire w4 p1.2      -> right.pos 4 mm2  red   1 m
wire w5 left.neg  -> main.neg  4 mm2  black 1 m
wire w6 right.neg -> main.neg  4 mm2  black 1 m
mode warm { for 10 min }
`,
	Good: `harness cab { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 60 A; family post; covered }
protection panel p1 { at shelf; feed stud M6; limit 60 A; each 30 A; tabs 6.3; way 1 fuse 25 A; way 2 fuse 25 A; covered }
load heater left    { at shelf; draws 17 A at 12 V; least 9 V; meant always }
load heater right   { at shelf; draws 17 A at 12 V; least 9 V; meant always }
wire w1 main.pos  -> f1.in     10 mm2 red   0.15 m
wire w2 f1.out    -> p1.feed   10 mm2 red   0.5 m
wire w3 p1.1      -> left.pos  4 mm2  red   1 m
wire w4 p1.2      -> right.pos 4 mm2  red   1 m
wire w5 left.neg  -> main.neg  4 mm2  black 1 m
wire w6 right.neg -> main.neg  4 mm2  black 1 m
mode warm { for 10 min }
`,
	Watch: watchPanels,
	Check: checkPanel,
})

// panelWork is a panel with its ways, and the most that they carried at once.
type panelWork struct {
	panel *harness.Device
	ways  []int
	most  steadiest
}

// watchPanels adds the ways of each panel up in every position.
func watchPanels(c *Context) func(*states.Point) {
	var list []*panelWork
	of := map[*harness.Device]*panelWork{}
	for _, i := range c.fuseElements() {
		d := c.Network.Elements[i].Fuse
		if d.Way == nil {
			continue
		}
		if of[d.Of] == nil {
			of[d.Of] = &panelWork{panel: d.Of}
			list = append(list, of[d.Of])
		}
		of[d.Of].ways = append(of[d.Of].ways, i)
	}
	c.kept = list
	return func(p *states.Point) {
		for _, w := range list {
			sum := 0.0
			for _, i := range w.ways {
				sum += math.Abs(p.Amps(i))
			}
			if sum > w.most.amps {
				w.most = steadiest{sum, &p.Position}
			}
		}
	}
}

func checkPanel(c *Context) {
	list, _ := c.kept.([]*panelWork)
	for _, w := range list {
		limit, ok := w.panel.SI("limit")
		if s := c.through(w); ok && s.amps > limit {
			c.overPanel(w.panel, s, limit)
		}
		for _, i := range w.ways {
			c.overWay(c.Network.Elements[i].Fuse)
		}
	}
	for _, d := range c.Harness.Devices {
		rating, rated := d.SI("rating")
		if holder, ok := d.SI("holder"); ok && rated && d.Is(kinds.Protection, "fuse") && rating > holder {
			c.overHolder(d, rating, holder)
		}
	}
}

// through is the most that goes through a panel. Where not every position was
// solved, it is bounded by its feed wire's worst, and by its ways' together.
func (c *Context) through(w *panelWork) steadiest {
	if c.Survey.Method != "bound" {
		return w.most
	}
	bound := steadiest{at: w.most.at}
	for _, i := range w.ways {
		bound.amps += c.Survey.Worst[i].Amps
	}
	feed := w.panel.Terminal("feed")
	if feed != nil && len(feed.Wires) == 1 {
		worst := c.Survey.Worst[c.Network.OfWire(feed.Wires[0])]
		if worst.Amps < bound.amps {
			bound = steadiest{worst.Amps, worst.At}
		}
	}
	return bound
}

func (c *Context) overPanel(d *harness.Device, s steadiest, limit float64) {
	f := finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` carries %s at once, and its limit is %s", d.Name, amps(s.amps), amps(limit)),
		Measured: &s.amps, Limit: &limit, Unit: "A", Source: "the panel's own limit",
	}
	if s.at != nil {
		f.Figures = append(f.Figures, "worst position: "+where(s.at.Figure()))
	}
	f.Figures = append(f.Figures, "take a panel that carries more, or move a way to another")
	c.Report(f)
}

func (c *Context) overWay(d *network.Device) {
	each, ok := d.Of.SI("each")
	if !ok || d.RatingA <= each {
		return
	}
	c.Report(finding.Finding{
		At: deviceAt(d), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` is %s, and a way of `%s` takes %s", d.Name, amps(d.RatingA), d.Of.Name, amps(each)),
		Measured: &d.RatingA, Limit: &each, Unit: "A", Source: "the panel's own limit of a way",
	})
}

func (c *Context) overHolder(d *harness.Device, rating, holder float64) {
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` is %s, and its holder takes %s", d.Name, amps(rating), amps(holder)),
		Measured: &rating, Limit: &holder, Unit: "A", Source: "the holder's own limit",
	})
}
