package check_test

import (
	"strings"

	"hame/check/internal/yard"
)

// stud picks a ground stud with a number of rings at least.
func (b *bed) stud(rings int) (*yard.Item, bool) {
	return chosen(b, b.AllOf("ground stud"), func(i *yard.Item) bool { return len(b.On(i.Name)) >= rings })
}

var returnFaults = map[string]planting{
	"ground/overloaded": {plant: func(b *bed) bool {
		g, ok := chosen(b, append(b.AllOf("ground bus"), b.AllOf("ground stud")...), func(i *yard.Item) bool {
			for _, c := range b.Circuits {
				for _, w := range c.Returns {
					if w.To == i.Name && c.Sure {
						return true
					}
				}
			}
			return false
		})
		if ok {
			g.Set("limit", "0.05 A")
		}
		return ok && b.name(g.Name)
	}},
	"ground/crowded": {plant: func(b *bed) bool {
		g, ok := b.stud(2)
		if ok {
			g.Set("holds", "1")
		}
		return ok && b.name(g.Name)
	}},
	"ground/thin": {plant: func(b *bed) bool {
		mine := map[string]float64{}
		for _, c := range b.Circuits {
			for _, w := range c.Returns {
				if c.Conv == nil && c.Device != "borrowed" && !b.linked(c) {
					mine[w.Name] = c.RatingA
				}
			}
		}
		var rating float64
		w, ok := b.thinned(func(w *yard.Wire) bool { rating = mine[w.Name]; return rating > 0 },
			func(worst, amps, guarded, _ float64) bool {
				return guarded < rating*0.6 && amps < rating*0.6 && amps > worst*1.6
			})
		return ok && b.name(w.Name)
	}},
	"ground/unbonded": {plant: func(b *bed) bool {
		g, ok := b.stud(1)
		if ok {
			g.Set("via", b.pick("hinge", "ball", "rubber"))
			b.Promises = nil
		}
		return ok && b.name(g.Name)
	}},
	"ground/offset": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool {
			return len(c.Loads) == 1 && !c.Critical && b.Practice != "ac43" && c.DesignA > 0.8 && !b.linked(c)
		})
		if !ok {
			return false
		}
		b.stretched(c, c.Returns[0], 0.058)
		return b.name(c.Loads[0].Name)
	}, with: map[string]string{"wire/drop": "what is lost in the return is lost to the load", "protection/loaded": "a lamp of constant power draws more where it gets less"}},
	"ground/sneak": {plant: func(b *bed) bool {
		// Of two lamps behind one switch each has a ground of its own, and one
		// shares it with another circuit: with that opened, the current comes back
		// through the first two.
		c, ok := b.lit(func(c *yard.Circuit) bool {
			return len(c.Loads) > 1 && b.Wired && c.At != "tray" && c.Switch != nil && c.DesignA < 5
		})
		if !ok {
			return false
		}
		shared := c.Returns[0].To
		_, ok = chosen(b, b.Circuits, func(o *yard.Circuit) bool {
			return o != c && o.Sure && len(o.Returns) > 0 && o.Returns[0].To == shared && o.Switch != nil && o.DesignA > 0.3*c.DesignA
		})
		if !ok || shared == "main.neg" {
			return false
		}
		b.roomy()
		c.Returns[1].To, c.Returns[1].LengthM, c.Returns[1].Gauge = "main.neg", 0, map[bool]string{true: "6 mm2", false: "8 AWG"}[b.Metric]
		b.Promises = nil
		names := []string{shared}
		for _, w := range b.Wires {
			if strings.HasPrefix(w.From, "n") {
				names = append(names, w.Name)
			}
		}
		return b.name(names...)
	}},
	"connector/live-male": {plant: func(b *bed) bool {
		x, ok := chosen(b, b.AllOf("join connector"), always)
		if !ok {
			return false
		}
		for _, w := range b.On(x.Name) {
			for _, end := range []*string{&w.From, &w.To} {
				switch {
				case strings.HasPrefix(*end, x.Name+".male"):
					*end = strings.Replace(*end, ".male", ".female", 1)
				case strings.HasPrefix(*end, x.Name+".female"):
					*end = strings.Replace(*end, ".female", ".male", 1)
				}
			}
		}
		return b.name(x.Name)
	}},
	"connector/overloaded": {plant: func(b *bed) bool {
		c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool { return c.Plug != nil && c.Sure })
		if ok {
			c.Plug.Set("limit", "0.1 A")
		}
		return ok && b.name(c.Plug.Name)
	}},
	"connector/unsealed": {plant: func(b *bed) bool {
		x, ok := chosen(b, append(b.AllOf("join connector"), b.AllOf("join splice")...), b.isWet)
		if ok {
			x.Drop("seal")
		}
		return ok && b.name(x.Name)
	}},
	"connector/gauge": {plant: func(b *bed) bool {
		x, ok := chosen(b, append(b.AllOf("join connector"), b.AllOf("join splice")...), always)
		if !ok {
			return false
		}
		x.Set("takes", "95 mm2..120 mm2")
		var names []string
		for _, w := range b.On(x.Name) {
			names = append(names, w.Name)
		}
		return b.name(names...)
	}},
	"connector/mismatch": {plant: func(b *bed) bool {
		x, ok := chosen(b, b.AllOf("join connector"), func(x *yard.Item) bool { return len(b.On(x.Name+".female.6")) == 0 })
		if !ok {
			return false
		}
		c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool {
			return c.Plug == x && len(c.Returns) > 0 && !strings.HasPrefix(c.Returns[0].To, "g")
		})
		if !ok {
			return false
		}
		b.like(c.Returns[0], "half", c.Returns[0].To, x.Name+".male.6")
		return b.name(x.Name)
	}},
}
