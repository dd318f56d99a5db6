package check_test

import (
	"fmt"
	"strings"

	"hame/check/internal/yard"
)

// isWet reports whether a device sits where it is wet.
func (b *bed) isWet(i *yard.Item) bool {
	at, ok := i.Get("at")
	if !ok {
		return false
	}
	exposure, _ := b.ZoneOf(at).Get("exposure")
	return strings.Contains(exposure, "wet") || strings.Contains(exposure, "splash")
}

// laden picks a bundle with wires enough in it.
func (b *bed) laden(wires int, fits func(*yard.Item) bool) (*yard.Item, bool) {
	run := checked(b.Print().Source)
	full := map[string]bool{}
	for _, x := range run.Harness.Bundles {
		full[x.Name] = len(x.Members) >= wires
	}
	return chosen(b, b.Bundles, func(i *yard.Item) bool { return full[i.Name] && fits(i) })
}

func hasCover(i *yard.Item) bool { return i.Has("cover") }

var fittingFaults = map[string]planting{
	"device/unsealed": {plant: func(b *bed) bool {
		d, ok := chosen(b, b.Devices, func(i *yard.Item) bool {
			return b.isWet(i) && i.Has("sealed") && !i.Has("existing") && !i.Is("ground") && !i.Is("supply tap") && !(i.Is("join") && i.Has("covered"))
		})
		if ok {
			d.Drop("sealed")
		}
		return ok && b.name(d.Name)
	}},
	"device/ignition": {plant: func(b *bed) bool {
		d, ok := chosen(b, b.Devices, func(i *yard.Item) bool {
			return i.Has("note") && (i.Is("switch toggle") || i.Is("switch push") || i.Is("load motor") || i.Is("switch relay") || i.Is("protection breaker"))
		})
		if ok {
			d.Drop("note")
		}
		return ok && b.name(d.Name)
	}},
	"terminal/stud": {plant: func(b *bed) bool {
		c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool {
			return len(c.Returns) > 0 && !c.Loads[0].Has("tabs") && !strings.HasPrefix(c.Returns[0].To, "main")
		})
		if ok {
			c.Returns[0].Set("ends", "ferrule, ring M12")
		}
		return ok && b.name(c.Returns[0].Name)
	}},
	"terminal/uncovered": {plant: func(b *bed) bool {
		d, ok := chosen(b, b.Devices, func(i *yard.Item) bool {
			return i.Name == "main" && !i.Has("existing") && len(b.On("main.pos")) > 0 || i.Name == "pos_bar" || i.Name == "perm"
		})
		if ok && d.Name != "main" && b.Device("cutoff") != nil {
			return false
		}
		if ok {
			d.Drop("covered")
		}
		return ok && b.name(d.Name)
	}},
	"bundle/cover-heat": {plant: func(b *bed) bool {
		i, ok := b.laden(1, hasCover)
		if ok {
			i.Set("cover", "loom_pa rated 30 degC")
		}
		return ok && b.name(i.Name)
	}},
	"bundle/fill": {plant: func(b *bed) bool {
		i, ok := b.laden(4, hasCover)
		if ok {
			i.Set("cover", "loom_pa 4.5 mm")
		}
		return ok && b.name(i.Name)
	}},
	"bundle/bare": {plant: func(b *bed) bool {
		i, ok := b.laden(1, always)
		if ok && b.r.IntN(2) == 0 {
			i.Set("through", "bulkhead")
		} else if ok {
			i.Set("behind", "panel")
		}
		return ok && b.name(i.Name)
	}},
	"bundle/clamps": {plant: func(b *bed) bool {
		i, ok := b.laden(1, always)
		if ok {
			i.Set("clamp", "every 700 mm")
		}
		return ok && b.name(i.Name)
	}},
	"bundle/hot-surface": {plant: func(b *bed) bool {
		i, ok := b.laden(1, always)
		if ok {
			i.Drop("clears").Add("clears", b.pick("hot by 40 mm", "moving by 10 mm", "fuel by 20 mm"))
		}
		return ok && b.name(i.Name)
	}},
}

var supplyFaults = map[string]planting{
	"supply/deficit": {plant: func(b *bed) bool {
		a := b.Device("alt")
		if a == nil || b.TotalA < 9 {
			return false
		}
		a.Set("output", fmt.Sprintf("%.3g A", b.TotalA*0.2)).Set("idle", fmt.Sprintf("%.3g A", b.TotalA*0.1))
		return b.name("alt", "main")
	}},
	"supply/drain": {plant: func(b *bed) bool {
		main := b.Device("main")
		parked := false
		for _, m := range b.Modes {
			parked = parked || m.Name == "parked"
		}
		if !parked {
			return false
		}
		main.Set("standby", "1.5 A")
		return b.name("main")
	}},
	"supply/cutoff-bypassed": {plant: func(b *bed) bool {
		if b.Device("cutoff") == nil {
			return false
		}
		b.past("main.pos", "key_past.in", false)
		return b.name("lamp_past")
	}},
	"supply/load-dump": {plant: func(b *bed) bool {
		w := b.landingOn("alt_fuse.in")
		if w == nil || b.Device("cutoff") == nil || !b.small() {
			return false
		}
		w.From = "cutoff.out"
		return b.name("alt")
	}},
	"supply/unattended": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool {
			return c.Loads[0].Has("meant") && (c.Switch == nil || !c.Switch.Is("switch push"))
		})
		if ok {
			c.Loads[0].Drop("meant")
		}
		return ok && b.name(c.Loads[0].Name)
	}},
	"supply/crank": {plant: func(b *bed) bool {
		if b.Device("start_sol") == nil {
			return false
		}
		b.past("key_fuse.out", "ignition.ign", true)
		return b.name("lamp_past")
	}},
	"load/starved": {plant: func(b *bed) bool {
		l, ok := b.oneLoad()
		if ok {
			l.Set("least", fmt.Sprintf("%.4g V", 1.25*b.SystemV))
		}
		return ok && b.name(l.Name)
	}},
	"load/overvolted": {plant: func(b *bed) bool {
		l, ok := b.oneLoad()
		if ok {
			l.Set("most", fmt.Sprintf("%.4g V", 0.9*b.SystemV))
		}
		return ok && b.name(l.Name)
	}},
}

// past adds a lamp beside everything: from the battery by a fuse and a key of its
// own, or straight from the key that is there.
func (b *bed) past(from, to string, keyed bool) {
	b.roomy()
	gauge := "2.5 mm2"
	if !b.Metric {
		gauge = "12 AWG"
	}
	line := func(name, x, y string) {
		b.Wires = append(b.Wires, &yard.Wire{Item: yard.Item{Name: name}, From: x, To: y, Gauge: gauge, Colour: "pink", LengthM: 0.12})
	}
	at := "tray"
	if !keyed {
		f := b.add("protection fuse", "fuse_past", at).Set("rating", "5 A").Set("breaks", "3000 A")
		if b.SystemV == 48 {
			f.Set("volts", "58 V")
		}
		b.add("switch key", "key_past", at).Set("rating", "10 A").Set("covered", "")
		line("wp1", from, "fuse_past.in")
		line("wp2", "fuse_past.out", to)
		to = "key_past.ign"
	}
	b.add("load led", "lamp_past", at).Set("draws", "6 W")
	line("wp3", to, "lamp_past.pos")
	line("wp4", "lamp_past.neg", "main.neg")
	b.Wires[len(b.Wires)-1].Colour = "black"
	b.Wires[len(b.Wires)-1].LengthM = 0.5
}
