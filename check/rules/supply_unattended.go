package rules

import (
	"fmt"
	"slices"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "supply/unattended",
	Severity: finding.Warning,
	Summary:  "a load that can stay on with the key off and is not marked as meant to",
	Why:      "Someone forgets it over a weekend, and on Monday the machine does not start.",
	Needs:    "The wires and switches; a push springs back, so nothing stays on by it. `meant always` on a load says that it is so on purpose; one that declares `standby` is judged by supply/drain instead, and what is fed against what is meant by graph/back-feed. A machine without a key is left by its `master` switch: what that leaves on is supply/cutoff-bypassed's.",
	Since:    "0.1.0", Related: []string{"supply/drain", "supply/cutoff-bypassed"},
	Bad: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V }  # want supply/unattended
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Good: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red   1 m
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Watch: watchUnattended,
	Check: checkUnattended,
})

// keyless reports whether no contact hangs on the key and a master switch is
// there to leave the machine by: what that leaves on, supply/cutoff-bypassed
// says.
func (c *Context) keyless() bool {
	for _, i := range c.of(network.Contact) {
		e := &c.Network.Elements[i]
		keyed := e.Gate.By == network.Key || e.Gate.By == network.Tap && !slices.Equal(e.Gate.Live, []string{"always"})
		if keyed {
			return false
		}
	}
	return slices.ContainsFunc(c.Harness.Devices, func(d *harness.Device) bool {
		return d.Is(kinds.Switch, "isolator") && d.Has("master")
	})
}

// unattended keeps where each load was first seen on.
type unattended struct {
	c     *Context
	meant *facts.Meant
	loads []int
	first map[int]*states.Point
}

func watchUnattended(c *Context) func(*states.Point) {
	u := &unattended{c: c, meant: c.Meant(), first: map[int]*states.Point{}}
	c.kept = u
	if c.keyless() {
		return func(*states.Point) {}
	}
	for _, i := range c.loads() {
		if e := &c.Network.Elements[i]; e.Device.Is(kinds.Load) && !e.Device.Has("meant") && !e.Device.Has("standby") {
			u.loads = append(u.loads, i)
		}
	}
	return u.see
}

func (u *unattended) see(p *states.Point) {
	if p.Position.Key != "off" || p.Position.Engine != "off" || pressed(p) {
		return
	}
	live := u.meant.LiveIn(p)
	for _, i := range u.loads {
		if u.first[i] == nil && u.c.On(p, i) && !u.behindBack(live, i) {
			u.first[i] = p
		}
	}
}

// pressed: a push is held down, and it springs back when it is let go.
func pressed(p *states.Point) bool {
	for d, throw := range p.Position.Throws {
		if throw > 0 && d.Is(kinds.Switch, "push") {
			return true
		}
	}
	return false
}

// behindBack: it's fed against what is meant, which graph/back-feed says.
func (u *unattended) behindBack(live []bool, load int) bool {
	z := u.meant.Zone(u.c.feedNode(load))
	return z >= 0 && len(u.meant.Feeds(z)) > 0 && !live[z]
}

// leftOn solves what the survey may have left out: all switches closed that stay
// where they are put.
func (u *unattended) leftOn() {
	throws := u.c.throwsOf(nil, true)
	for d := range throws {
		if d.Is(kinds.Switch, "push") {
			delete(throws, d)
		}
	}
	p := u.c.Again(&states.Position{Key: "off", Engine: "off", Corner: states.HotLow, Charge: 1, Throws: throws})
	if _, short := u.c.ShortIn(p); !short {
		u.see(p)
	}
}

func checkUnattended(c *Context) {
	u := c.kept.(*unattended)
	if c.Survey.Method != "all" {
		u.leftOn()
	}
	said := map[*harness.Device]bool{}
	words := map[*states.Point]string{} // one position may leave many loads on
	for _, i := range u.loads {
		e := &c.Network.Elements[i]
		if p := u.first[i]; p != nil && !said[e.Device] {
			said[e.Device] = true
			if words[p] == "" {
				words[p] = where(p.Position.Figure())
			}
			c.Report(finding.Finding{
				At: e.Device.Origin.Place(), Subject: e.Device.Name, Mode: c.modeName(p, words[p]),
				Message: fmt.Sprintf("`%s` can stay on with the key off, and draws %s", e.Name, amps(p.Amps(i))),
				Figures: []string{
					"position: " + words[p],
					"feed it through the key, or say `meant always` if it is so on purpose",
				},
			})
		}
	}
}
