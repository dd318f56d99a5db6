package check_test

import (
	"fmt"
	"strings"

	"hame/check/internal/yard"
	"hame/lang/tables"
)

// thinnings lists the sizes below a wire's own, thick first.
func thinnings(w *yard.Wire) []tables.Size {
	var list []tables.Size
	number, unit, _ := strings.Cut(w.Gauge, " ")
	if unit == "AWG" {
		now, _ := tables.ParseAWG(number)
		for n := now + 1; n <= 24; n++ {
			if n <= 1 || n%2 == 0 {
				list = append(list, tables.Gauge(n))
			}
		}
		return list
	}
	now := 0.0
	_, _ = fmt.Sscan(number, &now)
	for _, a := range []float64{95, 70, 50, 35, 25, 16, 10, 6, 4, 2.5, 1.5, 1, 0.75} {
		if a < now {
			list = append(list, tables.Metric(a))
		}
	}
	return list
}

// thinned makes a wire of the harness so thin that fits says yes, and says
// which; the first by chance that can be.
func (b *bed) thinned(which func(*yard.Wire) bool, fits func(worstA, amps, guarded, areaMM2 float64) bool) (*yard.Wire, bool) {
	run := checked(b.Print().Source)
	least, _ := run.Facts.Practice.Limit("gauge_alone", "")
	leastMM2 := least.Value
	if least.Unit == "AWG" {
		leastMM2 = least.AreaMM2()
	}
	for _, n := range b.r.Perm(len(b.Wires)) {
		w := b.Wires[n]
		bound := run.Harness.Wires[n]
		if a := run.Facts.Wire(bound).WorstA; a == nil || !which(w) || w.To == "capped" {
			continue
		}
		for _, s := range thinnings(w) {
			amps, guarded := ampacityOf(run, bound, s)
			if s.AreaMM2() >= leastMM2*0.995 && amps > 0 && fits(*run.Facts.Wire(bound).WorstA, amps, guarded, s.AreaMM2()) {
				w.Gauge = s.String()
				return w, true
			}
		}
	}
	return nil, false
}

func feedWire(w *yard.Wire) bool { return w.Colour != "black" && !w.Has("existing") }

// limited: what carries a source's whole output may do without a device only
// while it bears that, so that a thinner one lacks its device as well.
func (b *bed) limited(w *yard.Wire) bool {
	return strings.HasPrefix(w.From, "alt") || strings.HasPrefix(w.To, "alt") || strings.HasPrefix(w.From, "conv")
}

// landingOn is the wire that ends at a terminal.
func (b *bed) landingOn(end string) *yard.Wire {
	for _, w := range b.Wires {
		if w.To == end {
			return w
		}
	}
	return nil
}

const overFused = "the device that carried the load is above the ampacity of a wire that does not"

var wireFaults = map[string]planting{
	"wire/undersized": {
		plant: func(b *bed) bool {
			w, ok := b.thinned(func(w *yard.Wire) bool { return feedWire(w) && !b.limited(w) }, func(worst, amps, _, _ float64) bool { return amps < 0.97*worst })
			return ok && b.name(w.Name)
		},
		with: map[string]string{"protection/oversized": overFused, "protection/slow": "a wire too thin for its load is heated faster by a short"},
	},
	"wire/hot": {plant: crammed, with: map[string]string{
		"protection/oversized": overFused, "protection/slow": "a wire at its limit is heated faster by a short",
		"wire/drop": "the main feed is thinner for all loads", "ground/thin": "the main return no longer bears what the main fuse lets through",
	}},
	"wire/thin": {plant: func(b *bed) bool {
		b.Wires = append(b.Wires, &yard.Wire{Item: yard.Item{Name: "thread"}, From: "capped", To: "capped", Gauge: "28 AWG", Colour: "grey", LengthM: 1})
		if b.Metric {
			b.Wire("thread").Gauge = "0.35 mm2"
		}
		return b.name("thread")
	}},
	"wire/drop": {
		plant: func(b *bed) bool {
			c, ok := b.lit(func(c *yard.Circuit) bool {
				return c.DesignA > 0.8 && len(c.Loads) == 1 && thinMM2(c.Ends[0].Gauge) > 0.99 && (b.Practice != "cfr183" || thinMM2(c.Ends[0].Gauge) > 1.3)
			})
			return ok && b.stretched(c, c.Ends[0], 0.115)
		},
	},
	"wire/insulation": {
		plant: func(b *bed) bool {
			w, ok := chosen(b, b.Wires, func(w *yard.Wire) bool {
				return w.From != "capped" && b.inZone(w, "85 degC") && feedWire(w)
			})
			if ok {
				w.Insulation = "gpt"
				b.roomy()
			}
			return ok && b.name(w.Name)
		},
	},
	"wire/colour": {plant: func(b *bed) bool {
		c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool { return len(c.Returns) > 0 })
		if ok {
			c.Returns[0].Colour = "blue"
		}
		return ok && b.name(c.Returns[0].Name)
	}},
	"protection/missing": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool {
			return !c.Keyed && b.Device("cutoff") == nil && strings.Contains(c.Device, ".")
		})
		if !ok {
			return false
		}
		b.roomy()
		c.Feeds[0].From, c.Feeds[0].LengthM = "main.pos", 2
		return b.name(c.Feeds[0].Name)
	}},
	"protection/far": {plant: func(b *bed) bool {
		if b.Practice == "ac43" {
			return false
		}
		w, ok := chosen(b, b.Wires, func(w *yard.Wire) bool {
			return strings.HasSuffix(w.To, ".in") && w.LengthM > 0 && w.LengthM <= 0.15 && w.To != "cutoff.in"
		})
		if ok {
			w.LengthM = 1.95
		}
		return ok && b.name(w.Name)
	}},
}

// inZone reports whether an end of a wire lies where the ambient goes so high.
func (b *bed) inZone(w *yard.Wire, most string) bool {
	for _, end := range []string{w.From, w.To} {
		d := b.Device(strings.Split(end, ".")[0])
		if at, ok := d.Get("at"); ok {
			if ambient, _ := b.ZoneOf(at).Get("ambient"); strings.HasSuffix(ambient, ".."+most) {
				return true
			}
		}
	}
	return false
}

// stretched lengthens a wire until it takes a share of the system's volts at
// what its load really draws.
func (b *bed) stretched(c *yard.Circuit, w *yard.Wire, share float64) bool {
	run := checked(b.Print().Source)
	for n, bound := range run.Harness.Wires {
		if b.Wires[n] != w {
			continue
		}
		const asDeclared = 1.15 // the worst current is above what is drawn in a mode
		amps := *run.Facts.Wire(bound).WorstA / asDeclared
		w.LengthM = share * b.SystemV / (amps * tables.ResistancePerM(bound.Size).OhmPerM)
		w.LengthM = float64(int(w.LengthM*10)) / 10
	}
	b.unpromised(c)
	for _, l := range c.Loads {
		l.Drop("least")
	}
	return b.name(w.Name)
}

// crammed makes the main feed and the main return of a low class, and so thin
// that the table just allows them, side by side in one loom: the table has each
// alone in air.
func crammed(b *bed) bool {
	if b.Practice == "ac43" || !b.Wired || b.Device("main_fuse") == nil {
		return false
	}
	var pair []*yard.Wire
	for _, w := range b.Wires {
		if w.LengthM == 0 && (w.From == "main_fuse.out" || w.To == "main.neg" && strings.HasPrefix(w.From, "n")) {
			pair = append(pair, w)
			w.Insulation, w.Gauge = "gpt", map[bool]string{true: "16 mm2", false: "4 AWG"}[b.Metric]
		}
	}
	full := 0.94
	if b.Metric {
		full = 0.975 // an area holds more copper than the gauge whose row it takes
	}
	var names []string
	for _, w := range pair {
		_, ok := b.thinned(func(x *yard.Wire) bool { return x == w }, func(worst, amps, _, _ float64) bool { return amps >= 1.01*worst && worst > full*amps })
		if !ok {
			return false
		}
		names = append(names, w.Name)
	}
	for _, i := range b.Bundles {
		if strings.HasPrefix(i.Tail, "tray ") {
			i.Set("cover", "loom_pa")
		}
	}
	for _, l := range b.AllOf("load") {
		l.Drop("least")
	}
	b.Promises = nil
	return len(names) == 2 && b.name(append(names, b.beside(names[0])...)...)
}

// beside lists the wires that share a bundle with one.
func (b *bed) beside(name string) []string {
	var names []string
	for _, x := range checked(b.Print().Source).Harness.Bundles {
		var members []string
		mine := false
		for _, w := range x.Members {
			members, mine = append(members, w.Name), mine || w.Name == name
		}
		if mine {
			names = append(names, members...)
		}
	}
	return names
}
