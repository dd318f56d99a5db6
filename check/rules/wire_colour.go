package rules

import (
	"fmt"

	"hame/check/figures"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "wire/colour",
	Severity: finding.Advice,
	Summary:  "a return in another colour than returns have, a feed in theirs, or one colour for two feeds in one bundle",
	Why: "Whoever mends the machine in the dark goes by the colour. A black feed gets grounded, and of two red wires in " +
		"one loom the wrong one gets cut.",
	Needs: "The colours; a wire that names none is not judged. Returns are black unless the practice says `return COLOUR`. What is feed and what is return " +
		"follows from the network. A net runs on through mated contacts, splices and studs, not through fuses and switches. Before the slash decides.",
	Limits: []Limit{
		{"", "black returns, and a colour for each feed", "common practice", "", "common practice, no source"},
	},
	Since:   "0.1.0",
	Related: []string{"connector/mismatch"},
	Bad: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red  0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red  1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 blue 1 m  # want wire/colour
mode lit { for 1 h }
`,
	Good:  shed("", "", ""),
	Check: checkColour,
})

const colourSource = "common practice: colours of returns and feeds"

func checkColour(c *Context) {
	for _, w := range c.Harness.Wires {
		if w.Colour != "" && w.Bound() {
			c.sideColour(w)
		}
	}
	c.likeFeeds()
}

// sideColour judges a wire's colour by the side that it lies on.
func (c *Context) sideColour(w *harness.Wire) {
	returns := c.Practice.ReturnColour()
	side := c.Network.Side(w)
	f := finding.Finding{At: w.Origin.Place(), Subject: w.Name, Source: colourSource}
	switch {
	case side == figures.Return && w.Colour != returns:
		f.Message = fmt.Sprintf("`%s` is a return and %s: returns are %s", w.Name, w.Colour, returns)
	case side == figures.Feed && w.Colour == returns:
		f.Message = fmt.Sprintf("`%s` is a feed and %s, the colour of returns", w.Name, w.Colour)
	default:
		return
	}
	c.Report(f)
}

// likeFeeds finds feeds of several nets that run in one bundle in one colour.
// A net's colour is said once, where it first meets another.
func (c *Context) likeFeeds() {
	nets := c.feedNets()
	said := map[netColour]bool{}
	for _, b := range c.Harness.Bundles {
		var colours []string
		groups := map[string][]*harness.Wire{} // a wire of each net
		have := map[netColour]bool{}
		for _, w := range b.Members {
			key := netColour{nets(w), w.Colour}
			if w.Colour == "" || key.net < 0 || have[key] {
				continue
			}
			have[key] = true
			if groups[w.Colour] == nil {
				colours = append(colours, w.Colour)
			}
			groups[w.Colour] = append(groups[w.Colour], w)
		}
		for _, colour := range colours {
			c.likeFeed(b, groups[colour], nets, said)
		}
	}
}

// netColour is a colour of a net's wires.
type netColour struct {
	net    int
	colour string
}

// likeFeed reports the nets of one colour in a bundle that were not said, in
// one finding.
func (c *Context) likeFeed(b *harness.Bundle, wires []*harness.Wire, nets func(*harness.Wire) int, said map[netColour]bool) {
	var fresh []*harness.Wire
	for _, w := range wires[1:] {
		if key := (netColour{nets(w), w.Colour}); !said[key] {
			said[key] = true
			fresh = append(fresh, w)
		}
	}
	if len(fresh) == 0 {
		return
	}
	names := []string{wires[0].Name}
	f := finding.Finding{At: fresh[0].Origin.Place(), Subject: fresh[0].Name, Source: colourSource}
	f.Related = []finding.Related{{Place: wires[0].Origin.Place(), Message: "of another net"}, {Place: b.Origin.Place(), Message: "the bundle"}}
	const most = 8
	for k, w := range fresh {
		names = append(names, w.Name)
		if k > 0 && k < most {
			f.Related = append(f.Related, finding.Related{Place: w.Origin.Place(), Message: "of another net"})
		}
	}
	all := "all"
	if len(names) == 2 {
		all = "both"
	}
	f.Message = fmt.Sprintf("%s are feeds of %d nets, %s %s in `%s`", enumerate(names), len(names), all, fresh[0].Colour, b.Name)
	c.Report(f)
}

// feedNets tells which net a feed wire belongs to; -1 for what is none.
func (c *Context) feedNets() func(*harness.Wire) int {
	parent := make([]int, c.Network.Nodes)
	for i := range parent {
		parent[i] = i
	}
	root := func(n int) int {
		for parent[n] != n {
			parent[n] = parent[parent[n]]
			n = parent[n]
		}
		return n
	}
	for i := range c.Network.Elements {
		if e := &c.Network.Elements[i]; e.Kind == network.Wire || e.Kind == network.Joint {
			a, b := root(e.A), root(e.B)
			parent[max(a, b)] = min(a, b)
		}
	}
	return func(w *harness.Wire) int {
		if !w.Bound() || c.Network.Side(w) != figures.Feed {
			return -1
		}
		return root(c.Network.Elements[c.Network.OfWire(w)].A)
	}
}
