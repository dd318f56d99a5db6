package rules

import (
	"fmt"
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "graph/no-feed",
	Severity: finding.Error,
	Summary:  "a load that no position of the switches can power",
	Why: "A load that nothing can switch on is a wire forgotten, a diode the wrong way round, or a relay that no position " +
		"pulls in. It is found when the machine is to be used.",
	Needs: "The wires. Where a feed hangs on the key at start or on the starter turning, which no survey of positions makes, a way through " +
		"switches that could be closed is enough. A connector of which only one `half` is ours may bring the feed. " +
		"What a relay or converter would feed is not said again where its own coil or input has no feed.",
	Since: "0.1.0", Related: []string{"graph/no-return", "graph/loose-end"},
	Bad: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }  # want graph/no-feed
join splice s1 { at shelf; takes 1 mm2..4 mm2 }
load led lamp3 { at shelf; draws 9 W; least 9 V; meant always }  # want graph/no-feed
wire w4 s1        -> lamp2.pos 2.5 mm2 red   1 m
wire w5 s1        -> lamp3.pos 2.5 mm2 red   1 m
wire w6 lamp2.neg -> main.neg  2.5 mm2 black 1 m
wire w7 lamp3.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Good: shed("", `load led lamp2 { at shelf; draws 9 W; least 9 V; meant always }
join splice s1 { at shelf; takes 1 mm2..4 mm2 }
load led lamp3 { at shelf; draws 9 W; least 9 V; meant always }
wire w8 f1.out    -> s1        2.5 mm2 red   1 m
wire w4 s1        -> lamp2.pos 2.5 mm2 red   1 m
wire w5 s1        -> lamp3.pos 2.5 mm2 red   1 m
wire w6 lamp2.neg -> main.neg  2.5 mm2 black 1 m
wire w7 lamp3.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Watch: watchNoFeed,
	Check: checkNoFeed,
})

// powered notes which loads got anything in some position.
type powered struct {
	got    []bool
	failed bool // a position has no solution, or a relay goes round: nothing follows from silence
}

func watchNoFeed(c *Context) func(*states.Point) {
	w := &powered{got: make([]bool, len(c.Network.Elements))}
	c.kept = w
	return func(p *states.Point) {
		const nothingV = 0.05
		w.failed = w.failed || p.Failed != nil || len(p.Unsettled) > 0
		for i := range c.Network.Elements {
			if e := &c.Network.Elements[i]; !w.got[i] && e.Kind == network.Load {
				w.got[i] = p.Alive(e.A) && p.Alive(e.B) && math.Abs(p.Across(i)) > nothingV
			}
		}
	}
}

func checkNoFeed(c *Context) {
	if c.Harness.Hazy {
		return // a wire that could not be read may be the one that is missing
	}
	var dead []int
	for i := range c.Network.Elements {
		if e := &c.Network.Elements[i]; e.Kind == network.Load && !e.Load.Hidden() && c.unfed(i) {
			dead = append(dead, i)
		}
	}
	for _, i := range dead {
		if !c.follows(i, dead) {
			c.noFeed(i)
		}
	}
}

// unfed reports whether no position powers a load. A coil's loose terminal is
// graph/loose-end's, and so is an input that is left free beside others.
func (c *Context) unfed(load int) bool {
	e := &c.Network.Elements[load]
	if c.loosePole(e) || c.broughtIn(load) {
		return false
	}
	if !c.mayFeed(load, nil) {
		return true
	}
	w := c.kept.(*powered)
	if w.got[load] || w.failed || c.AnyShorted() || c.Survey.Method != "all" || !c.returns(e.B) && !c.returns(e.A) {
		return false
	}
	return !c.hangsOnStart(load)
}

func (c *Context) loosePole(e *network.Element) bool {
	d := e.Device
	if !d.Is(kinds.Load) {
		return slices.ContainsFunc(d.Terminals, func(t *harness.Terminal) bool {
			return (t.Index == e.A || t.Index == e.B) && len(t.Wires) == 0
		})
	}
	return len(e.Terminal.Wires) == 0 && slices.ContainsFunc(d.Terminals, func(t *harness.Terminal) bool {
		return t.Name != "neg" && len(t.Wires) > 0
	})
}

// mayFeed reports whether a source leads to a load's feed terminal with every
// contact closed but those that are barred.
func (c *Context) mayFeed(load int, barred func(*network.Element) bool) bool {
	e := &c.Network.Elements[load]
	for _, pole := range []int{e.A, e.B} {
		if !c.Network.Return(pole) && c.Network.LedTo(pole, func(node int) bool { return c.mayLive(node, barred) }, barred) {
			return true
		}
	}
	return false
}

// mayLive: a source's live pole is here.
func (c *Context) mayLive(node int, barred func(*network.Element) bool) bool {
	for _, i := range c.Network.At[node] {
		e := &c.Network.Elements[i]
		if e.Kind == network.Source && c.Network.Hot(i) == node && (barred == nil || !barred(e)) {
			return true
		}
	}
	return false
}

// broughtIn: the load hangs on the half of a connector whose other half is not
// ours, and the feed may come from there.
func (c *Context) broughtIn(load int) bool {
	half := map[int]bool{}
	for _, d := range c.Harness.Devices {
		for _, t := range d.Terminals {
			half[t.Index] = d.Is(kinds.Join, "connector") && d.Has("half")
		}
	}
	e := &c.Network.Elements[load]
	return slices.ContainsFunc([]int{e.A, e.B}, func(pole int) bool {
		return !c.Network.Return(pole) && c.Network.LedTo(pole, func(node int) bool { return half[node] }, nil)
	})
}

// hangsOnStart: without the contacts of the start position nothing feeds it, or
// it draws while the engine cranks alone. No survey of positions makes those.
func (c *Context) hangsOnStart(load int) bool {
	starts := func(e *network.Element) bool {
		return e.Kind == network.Contact && (slices.Equal(e.Gate.Key, []string{"start"}) || slices.Contains(e.Gate.Live, "start"))
	}
	var coils []int
	for i := range c.Network.Elements {
		if e := &c.Network.Elements[i]; e.Kind == network.Load && e.Load.Coil != nil && !c.mayFeed(i, starts) {
			coils = append(coils, i)
		}
	}
	return c.Network.Elements[load].Load.When == network.Cranking || !c.mayFeed(load, func(e *network.Element) bool {
		return starts(e) || e.Kind == network.Contact && e.Gate.By == network.Relay && slices.Contains(coils, e.Gate.Coil)
	})
}

// follows: the load would have a feed if only a relay's coil or a converter that
// is reported too had one.
func (c *Context) follows(load int, dead []int) bool {
	return c.mayFeed(load, nil) && !c.mayFeed(load, func(e *network.Element) bool {
		for _, i := range dead {
			if i == load {
				continue
			}
			if e.Kind == network.Contact && e.Gate.By == network.Relay && e.Gate.Coil == i && !e.Gate.Rest {
				return true
			}
			if e.Kind == network.Source && e.Source.Sort == "converter" && e.Source.Input == i {
				return true
			}
		}
		return false
	})
}

func (c *Context) noFeed(load int) {
	e := &c.Network.Elements[load]
	f := finding.Finding{At: e.Device.Origin.Place(), Subject: e.Device.Name}
	what := "`" + e.Name + "`"
	if e.Load.Coil != nil {
		what = "the coil of " + what
	}
	switch {
	case len(e.Terminal.Wires) == 0:
		f.Message = fmt.Sprintf("%s has no feed: no wire lands on `%s`", what, e.Terminal.FullName())
	case !c.mayFeed(load, nil):
		f.Message = what + " has no feed: no source leads to it through any switch"
	default:
		f.Message = what + " has no feed in any position: the contacts on the way to it are never closed together"
	}
	c.Report(f)
}
