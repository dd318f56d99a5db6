package rules

import (
	"fmt"

	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "supply/cutoff-bypassed",
	Severity: finding.Error,
	Summary:  "with every master switch open a load that is not meant to is still fed, or completes a circuit",
	Why:      "The master switch is what a hand goes to when something burns. What it does not cut goes on burning.",
	Needs:    "An isolator marked `master`. `meant always` says that a load is ahead of it on purpose. Judged with the engine off.",
	Since:    "0.1.0", Related: []string{"supply/unattended", "supply/load-dump"},
	Bad:   cut("f1.out  -> k2.in", "  # want supply/cutoff-bypassed"),
	Good:  cut("off.out -> k2.in", ""),
	Watch: watchCutoff,
	Check: checkCutoff,
})

// cut is a lamp behind a master switch, and a second one that the key feeds.
func cut(second, want string) string {
	return `harness cutoff { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main  { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1   { at shelf; rating 10 A; covered }
switch isolator off  { at shelf; rating 100 A; studs M8; covered; master }
switch key ks        { at shelf; rating 20 A; for led }
switch key k2        { at shelf; rating 20 A; for led }
load led lamp        { at shelf; draws 27 W; least 9 V }
load led lamp2       { at shelf; draws 9 W; least 9 V }` + want + `
wire w1 main.pos  -> f1.in     2.5 mm2 red   0.15 m
wire w2 f1.out    -> off.in    2.5 mm2 red   0.5 m
wire w3 off.out   -> ks.in     2.5 mm2 red   0.5 m
wire w4 ks.ign    -> lamp.pos  2.5 mm2 red   1 m
wire w5 lamp.neg  -> main.neg  2.5 mm2 black 1 m
wire w6 ` + second + `   2.5 mm2 red   1 m
wire w8 k2.ign    -> lamp2.pos 2.5 mm2 red   1 m
wire w7 lamp2.neg -> main.neg  2.5 mm2 black 1 m
mode lit { key on; closed off; for 1 h }
`
}

// cutoff keeps where each load was first seen on with the masters open.
type cutoff struct {
	c       *Context
	masters []*harness.Device
	first   map[int]*states.Point
}

func watchCutoff(c *Context) func(*states.Point) {
	u := &cutoff{c: c, first: map[int]*states.Point{}}
	c.kept = u
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Switch, "isolator") && d.Has("master") {
			u.masters = append(u.masters, d)
		}
	}
	return u.see
}

func (u *cutoff) see(p *states.Point) {
	if len(u.masters) == 0 || p.Position.Engine != "off" || anyClosed(p, u.masters) {
		return
	}
	for _, i := range u.c.loadElements() {
		if d := u.c.Network.Elements[i].Device; u.first[i] == nil && !d.Has("meant") && u.c.On(p, i) {
			u.first[i] = p
		}
	}
}

// allElse solves what the survey may have left out: the masters open and all else
// closed.
func (u *cutoff) allElse() {
	for _, key := range []string{"off", "acc", "on"} {
		throws := u.c.throwsOf(nil, true)
		for _, d := range u.masters {
			delete(throws, d)
		}
		p := u.c.Again(&states.Position{Key: key, Engine: "off", Corner: states.HotLow, Charge: 1, Throws: throws})
		if _, short := u.c.ShortIn(p); !short {
			u.see(p)
		}
	}
}

func anyClosed(p *states.Point, list []*harness.Device) bool {
	for _, d := range list {
		if p.Position.Throws[d] > 0 {
			return true
		}
	}
	return false
}

func checkCutoff(c *Context) {
	u := c.kept.(*cutoff)
	if c.Survey.Method != "all" && len(u.masters) > 0 {
		u.allElse()
	}
	said := map[*harness.Device]bool{}
	for _, i := range c.loads() {
		e, p := &c.Network.Elements[i], u.first[i]
		if p == nil || said[e.Device] {
			continue
		}
		said[e.Device] = true
		f := finding.Finding{
			At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.positionName(p),
			Message: fmt.Sprintf("`%s` still draws %s with every master switch open", e.Name, amps(p.Amps(i))),
			Figures: []string{"position: " + where(p.Position.Figure())},
		}
		if from, route, ok := c.feedPath(p, i); ok {
			f.Figures = append(f.Figures, "its feed: "+c.routeWords(from, route))
		}
		f.Figures = append(f.Figures, "feed it from behind the switch, or say `meant always` if it is ahead of it on purpose")
		c.Report(f)
	}
}
