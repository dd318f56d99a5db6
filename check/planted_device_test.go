package check_test

import (
	"fmt"
	"strconv"
	"strings"

	"hame/check/internal/yard"
	"hame/lang/tables"
)

// rate gives a circuit's device another rating.
func (b *bed) rate(c *yard.Circuit, amps float64) {
	if d := b.Device(c.Device); d != nil {
		d.Set("rating", fmt.Sprintf("%g A", amps))
		return
	}
	panel, way, _ := strings.Cut(c.Device, ".")
	p := b.Device(panel)
	for i, s := range p.Settings {
		if s.Key == "way" && strings.HasPrefix(s.Value, way+" ") {
			p.Settings[i].Value = fmt.Sprintf("%s fuse %g A", way, amps)
		}
	}
}

// motors picks a circuit with a motor on a device with a rating.
func (b *bed) motors() (*yard.Circuit, bool) {
	return chosen(b, b.Circuits, func(c *yard.Circuit) bool { return c.Loads[0].Is("load motor") && !b.linked(c) })
}

func (b *bed) linked(c *yard.Circuit) bool {
	d := b.Device(c.Device)
	return d != nil && !d.Is("protection fuse")
}

// bolted picks the main fuse, or one of those at the battery.
func (b *bed) bolted() (*yard.Item, bool) {
	return chosen(b, b.AllOf("protection fuse"), func(i *yard.Item) bool { return i.Name != "key_fuse" && !i.Has("existing") })
}

var protectionFaults = map[string]planting{
	"protection/oversized": {plant: func(b *bed) bool {
		c, ok := b.lit(func(c *yard.Circuit) bool {
			return !b.linked(c) || b.Device(c.Device).Has("rating") && c.Device != "borrowed"
		})
		if ok && c.Device == "borrowed" {
			return false
		}
		if ok {
			c.Loads[0].Set("fuse", fmt.Sprintf("most %g A", c.RatingA/2))
		}
		return ok && b.name(c.Device)
	}},
	"protection/slow": {plant: func(b *bed) bool {
		// A breaker where a fuse was: it takes its time over a great current.
		c, ok := b.lit(func(c *yard.Circuit) bool {
			d := b.Device(c.Device)
			return d != nil && d.Is("protection fuse") && b.SystemV < 48 && thinMM2(c.Ends[0].Gauge) < 0.13*c.RatingA
		})
		if ok {
			b.Device(c.Device).Set("volts", fmt.Sprintf("%g V", b.SystemV)).Decl = "protection breaker"
		}
		return ok && b.name(c.Device)
	}},
	"protection/stall": {plant: func(b *bed) bool {
		c, ok := b.motors()
		if ok {
			c.Loads[0].Set("stalls", fmt.Sprintf("%.3g A", 1.2*c.RatingA))
		}
		return ok && b.name(c.Device)
	}},
	"protection/fitted": {plant: func(b *bed) bool {
		f, ok := b.bolted()
		if ok {
			f.Set("fitted", "300 A")
			if family, _ := f.Get("family"); family != "post" {
				f.Set("fitted", "40 A")
			}
		}
		return ok && b.name(f.Name)
	}},
	"protection/breaking": {plant: func(b *bed) bool {
		f, ok := b.bolted()
		if ok {
			f.Set("breaks", "60 A")
		}
		return ok && b.name(f.Name)
	}},
	"protection/order": {plant: func(b *bed) bool {
		f := b.Device("main_fuse")
		if f == nil {
			return false
		}
		most := 0.0
		for _, c := range b.Circuits {
			most = max(most, c.RatingA)
		}
		for _, r := range []float64{30, 40, 50} {
			if r*0.59 > b.TotalA && r < 1.45*most {
				f.Set("rating", fmt.Sprintf("%g A", r))
				return b.name(f.Name)
			}
		}
		return false
	}},
	"protection/loaded": {plant: func(b *bed) bool {
		worst := b.worst()
		c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool {
			return len(c.Feeds) > 0 && !b.linked(c) && c.Device != "borrowed" && !c.Loads[0].Is("load motor") && lesser(worst[c.Feeds[0].Name]) > 0
		})
		if ok {
			b.rate(c, lesser(worst[c.Feeds[0].Name]))
		}
		return ok && b.name(c.Device)
	}},
	"protection/inrush": {plant: func(b *bed) bool {
		c, ok := b.motors()
		if ok {
			c.Loads[0].Set("starts", fmt.Sprintf("%.3g A for 2 s", 5*c.RatingA))
		}
		return ok && b.name(c.Device)
	}},
	"protection/panel": {plant: func(b *bed) bool {
		p, ok := chosen(b, b.AllOf("protection panel"), func(p *yard.Item) bool { return p.Name == "aux1" })
		if ok {
			p.Set("limit", "0.1 A")
		}
		return ok && b.name(p.Name)
	}},
	"protection/reset": {plant: func(b *bed) bool {
		f, ok := chosen(b, b.AllOf("protection breaker"), func(i *yard.Item) bool { return !i.Has("note") })
		if ok {
			f.Set("reset", "auto")
		}
		return ok && b.name(f.Name)
	}},
}

// thinMM2 is the area of a gauge as it is written.
func thinMM2(gauge string) float64 {
	number, unit, _ := strings.Cut(gauge, " ")
	if unit == "AWG" {
		n, _ := tables.ParseAWG(number)
		return tables.AWGAreaMM2(n)
	}
	area, _ := strconv.ParseFloat(number, 64)
	return area
}

// lesser is a blade rating that carries so much, and not lastingly; 0 where
// none is.
func lesser(amps float64) float64 {
	for _, r := range []float64{1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30} {
		if amps > 0.82*r && amps < 0.99*r {
			return r
		}
	}
	return 0
}

var switchFaults = map[string]planting{
	"switch/overloaded": {plant: func(b *bed) bool {
		c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool { return c.Switch != nil && c.Relay == nil && c.Sure })
		if ok {
			c.Switch.Set("rating", "0.1 A")
		}
		return ok && b.name(c.Switch.Name)
	}},
	"switch/coil-volts": {plant: func(b *bed) bool {
		k, ok := chosen(b, b.AllOf("switch relay"), always)
		if ok {
			k.Set("pulls", fmt.Sprintf("%.4g V", 0.92*b.SystemV))
			if b.Device("main").Has("chemistry") {
				k.Set("pulls", fmt.Sprintf("%.4g V", b.SystemV)) // lithium holds more
			}
		}
		return ok && b.name(k.Name)
	}},
	"switch/no-suppression": {plant: func(b *bed) bool {
		k, ok := chosen(b, b.AllOf("switch relay"), func(*yard.Item) bool {
			return len(b.AllOf("load led"))+len(b.AllOf("load module"))+len(b.AllOf("load outlet")) > 0
		})
		if ok {
			k.Set("suppress", "none")
		}
		return ok && b.name(k.Name)
	}},
	"switch/spare-live": {plant: func(b *bed) bool {
		k, ok := chosen(b, b.AllOf("switch relay"), func(k *yard.Item) bool { return !k.Has("form") })
		if ok {
			k.Set("form", "change").Drop("covered").Drop("studs")
		}
		return ok && b.name(k.Name)
	}},
	"tap/overloaded": {plant: func(b *bed) bool {
		t := b.Device("borrowed")
		if t == nil {
			return false
		}
		t.Set("carries", "9 A")
		return b.name(t.Name)
	}},
	"tap/forbidden": {plant: func(b *bed) bool {
		t := b.Device("borrowed")
		if t == nil {
			return false
		}
		if b.r.IntN(2) == 0 {
			t.Set("serves", "safety")
		} else {
			t.Set("drive", "pwm")
		}
		return b.name(t.Name)
	}},
	"tap/unprotected": {plant: func(b *bed) bool {
		t := b.Device("borrowed")
		if t == nil {
			return false
		}
		if b.Device("alt") != nil {
			return false // its own fuse may be the smaller one
		}
		t.Set("behind", "fuse 80 A").Set("gauge", "25 mm2")
		if !b.Metric {
			t.Set("gauge", "4 AWG")
		}
		return b.name(b.On(t.Name)[0].Name)
	}, with: map[string]string{"protection/slow": "a device too big for the wire opens too late on its shorts", "ground/thin": "nor does the return bear what that device lets through"}},
}
