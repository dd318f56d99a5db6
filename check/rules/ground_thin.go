package rules

import (
	"fmt"
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "ground/thin",
	Severity: finding.Warning,
	Summary:  "a return that could not carry what the feed's device lets through; merely thinner than its feed: advice",
	Why: "A load that fails inside draws whatever its fuse allows, and all of it comes back by the return. If that wire is the " +
		"weaker one it glows first, and the fuse, which never saw it, stays whole.",
	Needs: "Gauge, insulation and ambient of the return, and the rating of the feed's device (a link has none and is not judged). A load's own return is held to the " +
		"device that alone answers for its feed; a shared one to the largest of those of the loads whose current must come back by it, for one load fails at a time " +
		"(the sum of what they draw is ground/overloaded's, and a return that carries too much as it is is left to it). Where returns lie in parallel none is judged by itself. A return as good as the weakest wire of that feed is left " +
		"to protection/oversized. Merely thinner is said of a load's own return alone.",
	Limits: []Limit{
		{"land", "the device within 100 % of the return's ampacity, by which its feed is judged too", "AC 43.13-1B", "11-48", "seen"},
		{"cfr183", "within 150 %, below 50 V", "33 CFR 183.455", "(c)(1)", "seen"},
		{"ac43", "within 100 %", "AC 43.13-1B", "11-48", "seen"},
		{"", "advice: a return no thinner than its feed", "common practice", "trade judgement", "common practice"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/oversized", "ground/overloaded"},
	Bad:     heaterReturn("1 mm2  ", "  # want ground/thin"),
	Good:    heaterReturn("4 mm2  ", ""),
	Check:   checkThinReturn,
	Long:    true,
})

// heaterReturn is a small heater on a fuse that allows for a bigger one.
func heaterReturn(size, want string) string {
	return `harness pad { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 20 A; covered }
load heater pad1    { at shelf; draws 60 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    4 mm2   red   0.15 m
wire w2 f1.out   -> pad1.pos 4 mm2   red   1 m
wire w3 pad1.neg -> main.neg ` + size + ` black 1 m` + want + `
mode warm { for 1 h }
`
}

// homeward is a current that a source sends to a load and that must come back
// to it: between two nodes of the return side, behind a device.
type homeward struct {
	load     int // its element
	from, to int
	device   *network.Device
}

func checkThinReturn(c *Context) {
	if c.Harness.Hazy {
		return
	}
	list := c.homewards()
	ends := c.endsOf(list)
	weakest := c.weakestFeeds()
	for _, i := range c.of(network.Wire) {
		e := &c.Network.Elements[i]
		w := e.Wire
		if !c.Network.Return(e.A) || !c.Network.Return(e.B) || c.tooHotThere(w) || c.overAmpacity(w) {
			continue
		}
		if h, ok := c.largestOver(i, list, ends); !ok || !c.tooThin(i, h, weakest) {
			c.thinnerThanFeed(w)
		}
	}
}

// homewards lists what comes back by the return side, for every load and source.
func (c *Context) homewards() []homeward {
	list := make([]homeward, 0, len(c.loads()))
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if e.Load.Hidden() {
			continue
		}
		feed := c.feedNode(i)
		back := e.A + e.B - feed
		if !c.Network.Return(back) {
			continue
		}
		for _, w := range c.wiresAt(feed) {
			for _, p := range c.guards(w) {
				s := &c.Network.Elements[p.Source]
				if d := facts.Answering(p); d != nil {
					list = append(list, homeward{i, back, s.A + s.B - c.Network.Hot(p.Source), d})
				}
			}
		}
	}
	return list
}

// largestOver is the largest device whose current must come back over an
// element: the load's return and its source lie on two sides of it. Ends are
// those of the list by node.
func (c *Context) largestOver(element int, list []homeward, ends *ends) (homeward, bool) {
	var best homeward
	first := len(list)
	side := c.Reach([]int{c.Network.Elements[element].A}, func(i, _ int) bool { return i != element && c.bringsBack(i) })
	if side.Has(c.Network.Elements[element].B) {
		return best, false
	}
	for _, node := range side.List() {
		for _, k := range ends.at(node) {
			h := list[k]
			if side.Has(h.from) == side.Has(h.to) || best.device != nil && (h.device.RatingA < best.device.RatingA || h.device.RatingA == best.device.RatingA && k > first) {
				continue
			}
			best, first = h, k
		}
	}
	return best, best.device != nil
}

// ends are, by node, the currents that begin or end there.
type ends struct {
	first []int // by node: where its own begin in the list
	list  []int
}

func (e *ends) at(node int) []int { return e.list[e.first[node]:e.first[node+1]] }

// endsOf lists both ends of each current.
func (c *Context) endsOf(list []homeward) *ends {
	e := &ends{make([]int, c.Network.Nodes+1), make([]int, 2*len(list))}
	for _, h := range list {
		e.first[h.from]++
		e.first[h.to]++
	}
	sum := 0
	for node, count := range e.first {
		sum += count
		e.first[node] = sum
	}
	for k, h := range list {
		for _, node := range []int{h.from, h.to} {
			e.first[node]--
			e.list[e.first[node]] = k
		}
	}
	return e
}

// bringsBack: an element of the return side that conducts, a switch in it
// closed.
func (c *Context) bringsBack(i int) bool {
	e := &c.Network.Elements[i]
	switch e.Kind {
	case network.Wire, network.Joint:
		return true
	case network.Contact, network.Fuse:
		return c.Network.Return(e.A) && c.Network.Return(e.B)
	}
	return false
}

// weakestFeeds is, for every device, the least ampacity of the wires that it
// alone answers for.
func (c *Context) weakestFeeds() map[*network.Device]float64 {
	least, amps := make(map[*network.Device]float64, len(c.fuseElements())), c.deviceAmps()
	var devices []*network.Device
	for _, i := range c.of(network.Wire) {
		if math.IsNaN(amps[i]) {
			continue
		}
		devices = answering(devices[:0], c.Protect.Cover(c.Network.Elements[i].Wire).Paths)
		for _, d := range devices {
			if old, ok := least[d]; !ok || amps[i] < old {
				least[d] = amps[i]
			}
		}
	}
	return least
}

// tooThin judges a return by the largest device behind it, and answers whether
// there is something to say of it.
func (c *Context) tooThin(element int, h homeward, weakest map[*network.Device]float64) bool {
	w, bearsA := c.Network.Elements[element].Wire, c.deviceAmps()[element]
	if math.IsNaN(bearsA) {
		c.WaitForAmpacity(w)
		return true
	}
	l, ok := c.Practice.Limit("device_wire", "")
	if !ok {
		return false
	}
	share := 100 * h.device.RatingA / bearsA
	if feed, known := weakest[h.device]; share <= l.Value*(1+1e-9) || known && bearsA >= feed*(1-1e-9) {
		return false
	}
	fix, unfixed := c.thicker(w, func(s tables.Size) bool { return c.bearsDevice(w, s, h.device.RatingA) })
	r, _ := c.DeviceAmpacity(w)
	limit := bearsA * l.Value / 100
	load := c.Network.Elements[h.load]
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message: fmt.Sprintf("`%s` brings back what `%s` takes and may carry %s, and `%s` lets %s through", w.Name, load.Name,
			amps(r.Amps), h.device.Name, amps(h.device.RatingA)),
		Figures: append([]string{
			fmt.Sprintf("%s: %s", w.Name, r),
			shareOf(share, l.Value),
		}, unfixed...),
		Measured: &h.device.RatingA, Limit: &limit, Unit: "A", Source: source(l.Source), Fix: fix,
		Related: []finding.Related{{Place: deviceAt(h.device), Message: "the device of its feed"}, {Place: load.Device.Origin.Place(), Message: "the load"}},
	})
	return true
}

// bearsDevice reports whether a return in another size would carry what a
// device lets through, and be no thinner than its feed.
func (c *Context) bearsDevice(w *harness.Wire, s tables.Size, ratingA float64) bool {
	cable, _ := w.Cable()
	r, ok := c.Practice.DeviceAmpacity(s.AreaMM2(), cable.TemperatureC, *c.Wire(w).AmbientC)
	feed := c.feedOf(w)
	return ok && c.Bundled(w, r).Amps >= ratingA && (feed == nil || s.AreaMM2() >= feed.AreaMM2*likeSize)
}

// likeSize is how near two areas count as one size: 14 AWG is 2.08 mm2, 2 mm2
// would do beside it.
const likeSize = 0.95

// thinnerThanFeed is advice.
func (c *Context) thinnerThanFeed(w *harness.Wire) {
	feed := c.feedOf(w)
	if feed == nil || w.AreaMM2 == 0 || w.AreaMM2 >= feed.AreaMM2*likeSize {
		return
	}
	fix, _ := c.thicker(w, func(s tables.Size) bool { return s.AreaMM2() >= feed.AreaMM2*likeSize })
	c.Report(finding.Finding{
		Severity: finding.Advice, At: w.Origin.Place(), Subject: w.Name,
		Message:  fmt.Sprintf("`%s` is %s and brings back what `%s` of %s feeds", w.Name, w.Size, feed.Name, feed.Size),
		Measured: &w.AreaMM2, Limit: &feed.AreaMM2, Unit: "mm2", Source: "common practice: a return no thinner than its feed",
		Related: []finding.Related{{Place: feed.Origin.Place(), Message: "the feed"}}, Fix: fix,
	})
}

// feedOf is the thickest feed of the load whose own return a wire is; of
// several on one terminal the thinnest, for the others lead on. Nil where it is
// no load's own return, or no feed's gauge is known.
func (c *Context) feedOf(w *harness.Wire) *harness.Wire {
	var thickest *harness.Wire
	for _, i := range c.ownLoads(w) {
		if f := thinnest(c.wiresAt(c.feedNode(i))); f != nil && (thickest == nil || f.AreaMM2 > thickest.AreaMM2) {
			thickest = f
		}
	}
	return thickest
}

// ownLoads lists the loads that have a return wire for themselves.
func (c *Context) ownLoads(w *harness.Wire) []int {
	var list []int
	e := &c.Network.Elements[c.Network.OfWire(w)]
	for _, node := range []int{e.A, e.B} {
		if !c.oneWireAt(node) {
			continue
		}
		for _, i := range c.Network.At[node] {
			l := &c.Network.Elements[i]
			if l.Kind == network.Load && !l.Load.Hidden() && c.feedNode(i) != node {
				list = append(list, i)
			}
		}
	}
	return list
}

func (c *Context) wiresAt(node int) []*harness.Wire {
	list := make([]*harness.Wire, 0, 4) // few nodes have more
	for _, i := range c.Network.At[node] {
		if w := c.Network.Elements[i].Wire; w != nil {
			list = append(list, w)
		}
	}
	return list
}

func (c *Context) oneWireAt(node int) bool {
	count := 0
	for _, i := range c.Network.At[node] {
		if c.Network.Elements[i].Wire != nil {
			count++
		}
		if count > 1 {
			return false
		}
	}
	return count == 1
}

func thinnest(list []*harness.Wire) *harness.Wire {
	var best *harness.Wire
	for _, w := range list {
		if w.AreaMM2 > 0 && (best == nil || w.AreaMM2 < best.AreaMM2) {
			best = w
		}
	}
	return best
}
