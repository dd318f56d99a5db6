package check_test

import (
	"fmt"
	"strings"

	"hame/check/internal/yard"
)

// add declares a device at a place, sealed and noted whatever the zone.
func (b *bed) add(decl, name, at string) *yard.Item {
	i := (&yard.Item{Decl: decl, Name: name}).Set("at", at)
	switch decl {
	case "join splice", "join connector":
		i.Set("seal", "IP67")
	default:
		i.Set("sealed", "IP67").Set("note", `"ignition-protected"`)
	}
	if b.SystemV == 48 && (strings.HasPrefix(decl, "switch toggle") || strings.HasPrefix(decl, "switch key")) {
		i.Set("volts", "60 V")
	}
	b.Devices = append(b.Devices, i)
	return i
}

// like lays a wire of another's gauge, short.
func (b *bed) like(w *yard.Wire, name, from, to string) *yard.Wire {
	x := &yard.Wire{Item: yard.Item{Name: name}, From: from, To: to, Gauge: w.Gauge, Insulation: w.Insulation, Colour: w.Colour, LengthM: 0.3}
	if alone, ok := map[string]string{"0.75 mm2": "1 mm2", "18 AWG": "16 AWG"}[x.Gauge]; ok {
		x.Gauge = alone
	}
	b.roomy()
	b.Wires = append(b.Wires, x)
	return x
}

// roomy takes the bores off, so that one wire more is no matter of fill.
func (b *bed) roomy() {
	for _, i := range b.Bundles {
		if c, ok := i.Get("cover"); ok {
			i.Set("cover", strings.Fields(c)[0])
		}
		if t, _ := i.Get("through"); strings.HasPrefix(t, "bulkhead") {
			i.Set("through", "bulkhead grommet 90 mm")
		}
	}
}

// lit picks a circuit with one or more lamps that a switch of its own works.
func (b *bed) lit(fits func(*yard.Circuit) bool) (*yard.Circuit, bool) {
	return chosen(b, b.Circuits, func(c *yard.Circuit) bool {
		return c.Sure && len(c.Returns) > 0 && c.Loads[0].Is("load led") && fits(c)
	})
}

// atPlace is the place that a device sits at.
func (b *bed) atPlace(name string) string {
	at, _ := b.Device(strings.Split(name, ".")[0]).Get("at")
	return at
}

var graphFaults = map[string]planting{
	"graph/loose-end": {plant: func(b *bed) bool {
		if b.r.IntN(2) == 0 {
			b.add("switch toggle", "forgotten", "tray").Set("rating", "20 A")
			return b.name("forgotten")
		}
		c, ok := b.lit(func(c *yard.Circuit) bool { return !c.Loads[0].Has("tabs") })
		if ok {
			c.Loads[0].Set("tabs", "6.3")
			c.Ends[0].Set("ends", "ferrule, ring M6")
			if c.Ends[0].From != "" && b.fitted(c.Ends[0].From) {
				return false
			}
		}
		return ok && b.name(c.Ends[0].Name)
	}},
	"graph/live-stub": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool { return len(c.Feeds) > 0 })
		if !ok {
			return false
		}
		b.add("join splice", "nowhere", c.At)
		b.like(c.Ends[0], "stub", c.Ends[0].From, "nowhere")
		return b.fewer(c.Ends[0].From) && b.name("stub")
	}},
	"graph/no-feed": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool { return !strings.HasPrefix(c.Returns[0].To, "g") })
		if !ok {
			return false
		}
		b.add("load led", "dark", c.At).Set("draws", "5 W").Set("meant", "always")
		b.like(c.Returns[0], "wd1", c.Returns[0].To, "dark.pos")
		b.like(c.Returns[0], "wd2", "dark.neg", c.Returns[0].To)
		return b.name("dark")
	}},
	"graph/no-return": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool { return b.small() && len(b.On(c.Returns[0].To)) > 1 })
		if ok {
			b.RemoveWire(c.Returns[0])
			b.unpromised(c)
		}
		return ok && b.name(c.Loads[0].Name)
	}},
	"graph/dead-short": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool { return !strings.HasPrefix(c.Returns[0].To, "g") && c.Plug == nil })
		if !ok {
			return false
		}
		b.like(c.Ends[0], "slip", c.Ends[0].From, c.Returns[0].To)
		b.Promises = nil
		return b.name("main", "alt")
	}, with: map[string]string{"graph/no-feed": "what the slip ties to the return has no feed"}},
	"graph/reversed": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool { return len(c.Loads) == 1 })
		if ok {
			l := c.Loads[0].Name
			b.unpromised(c)
			c.Loads[0].Set("polarity", "strict")
			c.Ends[0].To, c.Returns[0].From = l+".neg", l+".pos"
		}
		return ok && b.name(c.Loads[0].Name)
	}},
	"graph/back-feed": {plant: coasts},
	"graph/parallel": {plant: doubleFuse, with: map[string]string{
		"protection/oversized": "neither of the two protects the wire alone, so that the main fuse must",
		"protection/slow":      "neither of the two opens alone",
		"ground/thin":          "nor does the return bear what the main fuse lets through",
	}},
	"graph/unsettled": {plant: buzzer},
	"graph/unreachable": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool { return len(c.Loads) == 1 && len(b.Bundles) > 0 })
		if !ok {
			return false
		}
		b.Places = append(b.Places, &yard.Item{Decl: "place", Name: "island", Tail: "in " + b.ZoneOf(c.At).Name})
		c.Loads[0].Set("at", "island")
		c.Ends[0].LengthM, c.Returns[0].LengthM = 0, 0
		return b.name(c.Ends[0].Name, c.Returns[0].Name)
	}},
	"graph/return-switched": {plant: func(b *bed) bool {
		c, ok := b.lit(func(*yard.Circuit) bool { return b.small() })
		if !ok {
			return false
		}
		b.add("switch toggle", "s_back", c.At).Set("rating", "100 A")
		w := c.Returns[0]
		b.like(w, "wb", "s_back.out", w.To)
		w.To = "s_back.in"
		b.Promises = nil
		return b.name("s_back")
	}},
}

// small: every position of the switches is solved, so that no bound is judged.
func (b *bed) small() bool { return len(b.AllOf("switch toggle"))+len(b.AllOf("switch push")) < 4 }

// fitted reports whether a terminal says what it wants on a wire's end.
func (b *bed) fitted(end string) bool {
	d := b.Device(strings.Split(end, ".")[0])
	return d.Has("tabs") || d.Has("studs") || d.Has("size") || d.Is("join") || d.Has("feed")
}

// fewer reports whether a terminal takes one wire more: a cavity does not.
func (b *bed) fewer(end string) bool {
	return !b.Device(strings.Split(end, ".")[0]).Is("join connector")
}

// unpromised takes the promises about a circuit out.
func (b *bed) unpromised(c *yard.Circuit) {
	kept := b.Promises[:0:0]
	for _, p := range b.Promises {
		mine := false
		for _, l := range c.Loads {
			mine = mine || p.Name == l.Name
		}
		for _, w := range c.Ends {
			mine = mine || p.Name == w.Name
		}
		if !mine {
			kept = append(kept, p)
		}
	}
	b.Promises = kept
}

// coasts makes a motor on a keyed panel one that coasts: with the key's relay
// open it feeds what hangs on the panel unswitched.
func coasts(b *bed) bool {
	m, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool { return c.Sure && c.Keyed && c.Relay == nil && c.Loads[0].Is("load motor") })
	if !ok {
		return false
	}
	other, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool {
		return c.Sure && c.Keyed && c != m && c.Switch == nil && !c.Loads[0].Is("load motor")
	})
	if !ok || other == nil {
		return false
	}
	m.Loads[0].Set("coasts", "")
	var names []string
	for _, d := range b.Devices {
		if d.Is("load") || d.Is("switch relay") || d.Is("supply converter") {
			names = append(names, d.Name)
		}
	}
	return b.name(names...)
}

// way adds a way to a panel.
func (b *bed) way(p *yard.Item, rating float64) string {
	n := 1
	for _, s := range p.Settings {
		if s.Key == "way" {
			n++
		}
	}
	p.Add("way", fmt.Sprintf("%d fuse %g A", n, rating))
	return fmt.Sprintf("%s.%d", p.Name, n)
}

// doubleFuse lays a second way beside a circuit's own.
func doubleFuse(b *bed) bool {
	c, ok := b.lit(func(c *yard.Circuit) bool { return strings.Contains(c.Device, ".") && b.fewer(c.Feeds[0].To) })
	if !ok {
		return false
	}
	name := b.way(b.Device(strings.Split(c.Device, ".")[0]), c.RatingA)
	b.like(c.Feeds[0], "beside", name, c.Feeds[0].To)
	return b.name(name)
}

// buzzer is a relay whose coil hangs on its own break contact.
func buzzer(b *bed) bool {
	c, ok := b.lit(func(c *yard.Circuit) bool {
		return c.Keyed && b.small() && strings.Contains(c.Device, ".") && !strings.HasPrefix(c.Returns[0].To, "g")
	})
	if !ok {
		return false
	}
	at := b.atPlace(c.Device)
	feed := b.way(b.Device(strings.Split(c.Device, ".")[0]), min(5, c.RatingA))
	k := b.add("switch relay", "buzz", at).Set("contacts", "40 A").Set("coil", fmt.Sprintf("%d ohm", int(b.SystemV*b.SystemV/1.6)))
	k.Set("suppress", "resistor").Set("form", "change").Set("covered", "")
	b.add("load led", "dim", at).Set("draws", "5 W").Set("meant", "always")
	ground := c.Returns[0].To
	for i, ends := range [][2]string{{feed, "buzz.30"}, {"buzz.87a", "buzz.86"}, {"buzz.85", ground}, {"buzz.87", "dim.pos"}, {"dim.neg", ground}} {
		b.like(c.Ends[0], fmt.Sprintf("wz%d", i), ends[0], ends[1])
	}
	return b.name("buzz")
}
