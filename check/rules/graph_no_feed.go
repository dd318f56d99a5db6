package rules

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"hame/check/facts"
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
		for _, i := range c.loads() {
			if e := &c.Network.Elements[i]; !w.got[i] {
				w.got[i] = p.Alive(e.A) && p.Alive(e.B) && math.Abs(p.Across(i)) > nothingV
			}
		}
	}
}

func checkNoFeed(c *Context) {
	if c.Harness.Hazy {
		return // a wire that could not be read may be the one that is missing
	}
	f := c.newFeeds()
	var dead []int
	for _, i := range c.loads() {
		if !c.Network.Elements[i].Load.Hidden() && f.unfed(i) {
			dead = append(dead, i)
		}
	}
	if len(dead) == 0 {
		return
	}
	causes := map[int]bool{}
	for _, i := range append(c.openCoils(), dead...) {
		causes[i] = true
	}
	without := f.reach(func(e *network.Element) bool { return f.causedBy(e, causes, -1) })
	for _, i := range dead {
		if !f.follows(i, causes, without) {
			c.noFeed(i, f.fed(i, f.all))
		}
	}
}

// feeds is what sources lead to, with every contact closed. What is asked of loads
// alone that got nothing is worked out when it is.
type feeds struct {
	c       *Context
	all     *facts.Nodes
	brought *facts.Nodes        // from the half of a connector whose other half is not ours
	unstart func() *facts.Nodes // without what hangs on the start position
	home    func() *facts.Nodes // leads to a source's other pole
}

func (c *Context) newFeeds() *feeds {
	f := &feeds{c: c}
	f.all = f.reach(func(*network.Element) bool { return false })
	f.unstart, f.home = sync.OnceValue(f.unstarted), sync.OnceValue(f.leadHome)
	var halves []int
	for _, d := range c.Harness.Devices {
		if !d.Is(kinds.Join, "connector") || !d.Has("half") {
			continue
		}
		for _, t := range d.Terminals {
			halves = append(halves, t.Index)
		}
	}
	f.brought = c.Reach(halves, func(i, from int) bool { return c.Passes(nil, i, from) })
	return f
}

func (f *feeds) unstarted() *facts.Nodes {
	starts := func(e *network.Element) bool {
		return slices.Equal(e.Gate.Key, []string{"start"}) || slices.Contains(e.Gate.Live, "start")
	}
	direct := f.without(starts)
	return f.without(func(e *network.Element) bool {
		return starts(e) || e.Gate.By == network.Relay && e.Gate.Coil >= 0 && !f.fed(e.Gate.Coil, direct)
	})
}

func (f *feeds) leadHome() *facts.Nodes {
	c := f.c
	var cold []int
	for _, i := range c.Sources() {
		e := &c.Network.Elements[i]
		cold = append(cold, e.A+e.B-c.Network.Hot(i))
	}
	return c.Reach(cold, func(i, from int) bool {
		return c.Passes(nil, i, c.Across(i, from))
	})
}

// without lists the nodes that the sources lead to without the contacts that
// are barred; where that are none, all.
func (f *feeds) without(barred func(contact *network.Element) bool) *facts.Nodes {
	if !slices.ContainsFunc(f.c.of(network.Contact), func(i int) bool { return barred(&f.c.Network.Elements[i]) }) {
		return f.all
	}
	return f.reach(func(e *network.Element) bool { return e.Kind == network.Contact && barred(e) })
}

// reach lists the nodes that the sources lead to without what is barred; the
// return side is not entered.
func (f *feeds) reach(barred func(*network.Element) bool) *facts.Nodes {
	c := f.c
	var hot []int
	for _, i := range c.Sources() {
		if !barred(&c.Network.Elements[i]) {
			hot = append(hot, c.Network.Hot(i))
		}
	}
	return c.Reach(hot, func(i, from int) bool {
		return c.Passes(nil, i, from) && !barred(&c.Network.Elements[i]) && !c.Network.Return(c.Across(i, from))
	})
}

// fed reports whether a set of nodes holds a load's feed terminal.
func (f *feeds) fed(load int, nodes *facts.Nodes) bool {
	e := &f.c.Network.Elements[load]
	return nodes.Has(e.A) && !f.c.Network.Return(e.A) || nodes.Has(e.B) && !f.c.Network.Return(e.B)
}

// unfed reports whether no position powers a load. A coil's loose terminal is
// graph/loose-end's, and so is an input that is left free beside others.
func (f *feeds) unfed(load int) bool {
	e := &f.c.Network.Elements[load]
	if loosePole(e) || f.fed(load, f.brought) {
		return false
	}
	if !f.fed(load, f.all) {
		return true
	}
	w := f.c.kept.(*powered)
	if w.got[load] || !f.home().Has(e.A) && !f.home().Has(e.B) || f.onStart(load) {
		return false
	}
	if w.failed || f.c.AnyShorted() || f.c.Survey.Method != "all" {
		return !f.c.mayClose(load)
	}
	return true
}

// openCoils lists the relays' coils that lead back to no source:
// graph/no-return or ground/unbonded says so, and what they would switch on
// hangs on that.
func (c *Context) openCoils() []int {
	var list []int
	for _, i := range c.loads() {
		if e := &c.Network.Elements[i]; e.Load.Coil != nil && !c.returns(e.A) && !c.returns(e.B) {
			list = append(list, i)
		}
	}
	return list
}

func loosePole(e *network.Element) bool {
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

// onStart: nothing feeds it but the contacts of the start position, or it draws
// while the engine cranks alone. No survey of positions makes those.
func (f *feeds) onStart(load int) bool {
	return f.c.Network.Elements[load].Load.When == network.Cranking || !f.fed(load, f.unstart())
}

// causedBy: the element is dead because a coil or converter's input of those is,
// one of them left out.
func (f *feeds) causedBy(e *network.Element, causes map[int]bool, but int) bool {
	switch {
	case e.Kind == network.Contact && e.Gate.By == network.Relay:
		return !e.Gate.Rest && e.Gate.Coil != but && causes[e.Gate.Coil]
	case e.Kind == network.Source && e.Source.Sort == "converter":
		return e.Source.Input != but && causes[e.Source.Input]
	}
	return false
}

// follows: the load would have a feed if only a relay's coil or a converter that
// is reported too had one. What a coil or converter feeds itself is no excuse
// for it.
func (f *feeds) follows(load int, causes map[int]bool, without *facts.Nodes) bool {
	if !f.fed(load, f.all) || f.fed(load, without) {
		return false
	}
	e := &f.c.Network.Elements[load]
	if e.Load.Coil == nil && e.Load.Sort != "converter" {
		return true
	}
	barred := func(x *network.Element) bool { return f.causedBy(x, causes, load) }
	return !slices.ContainsFunc([]int{e.A, e.B}, func(pole int) bool {
		return !f.c.Network.Return(pole) && f.c.Network.LedTo(pole, func(node int) bool { return f.c.liveUnless(node, barred) }, barred)
	})
}

// liveUnless: the live pole of a source is here that is not barred.
func (c *Context) liveUnless(node int, barred func(*network.Element) bool) bool {
	for _, i := range c.Network.At[node] {
		if e := &c.Network.Elements[i]; e.Kind == network.Source && c.Network.Hot(i) == node && !barred(e) {
			return true
		}
	}
	return false
}

func (c *Context) noFeed(load int, led bool) {
	e := &c.Network.Elements[load]
	f := finding.Finding{At: e.Device.Origin.Place(), Subject: e.Device.Name}
	what := "`" + e.Name + "`"
	if e.Load.Coil != nil {
		what = "the coil of " + what
	}
	switch {
	case len(e.Terminal.Wires) == 0:
		f.Message = fmt.Sprintf("%s has no feed: no wire lands on `%s`", what, e.Terminal.FullName())
	case !led:
		f.Message = what + " has no feed: no source leads to it through any switch"
	default:
		f.Message = what + " has no feed in any position: the contacts on the way to it are never closed together"
	}
	c.Report(f)
}
