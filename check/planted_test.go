package check_test

import (
	"fmt"
	"maps"
	"strings"

	"hame/check/internal/yard"
)

// plantings has one for every rule.
var plantings = merged(textFaults, graphFaults, wireFaults, protectionFaults, switchFaults, returnFaults, fittingFaults, supplyFaults)

func merged(list ...map[string]planting) map[string]planting {
	all := map[string]planting{}
	for _, m := range list {
		maps.Copy(all, m)
	}
	return all
}

// oneLoad picks a load of a circuit that is on whenever all is on.
func (b *bed) oneLoad() (*yard.Item, bool) {
	c, ok := chosen(b, b.Circuits, func(c *yard.Circuit) bool { return c.Sure })
	if !ok {
		return nil, false
	}
	return c.Loads[0], true
}

// drawn picks a load that says what it draws.
func (b *bed) drawn() (*yard.Item, bool) {
	return chosen(b, b.AllOf("load"), func(i *yard.Item) bool { return i.Has("draws") && !i.Is("load starter") })
}

var textFaults = map[string]planting{
	"text/syntax": {plant: func(b *bed) bool {
		w, ok := chosen(b, b.Wires, func(w *yard.Wire) bool { return w.To != "capped" })
		if !ok {
			return false
		}
		old := " " + w.From + " -> " + w.To + " "
		b.text = func(text string) string { return strings.Replace(text, old, strings.Replace(old, "->", "", 1), 1) }
		return b.name(w.Name)
	}},
	"name/unknown": {plant: func(b *bed) bool {
		w, ok := chosen(b, b.Wires, func(w *yard.Wire) bool { return strings.Contains(w.To, ".") })
		if ok {
			w.To = "x" + w.To
			b.Promises = nil
		}
		return ok && b.name(w.Name)
	}},
	"name/duplicate": {plant: func(b *bed) bool {
		b.tail = "place tray in " + b.Zones[0].Name + "\n"
		return true
	}},
	"kind/unknown": {plant: func(b *bed) bool {
		l, ok := chosen(b, b.AllOf("load"), always)
		if ok {
			l.Decl = "load lantern"
		}
		return ok && b.name(l.Name)
	}},
	"setting/unknown": {plant: func(b *bed) bool {
		d, ok := chosen(b, b.Devices, always)
		if ok && d.Tall {
			return false
		}
		d.Add("shade", "blue")
		return b.name(d.Name)
	}},
	"setting/missing": {plant: func(b *bed) bool {
		l, ok := b.drawn()
		if ok {
			l.Drop("draws")
		}
		return ok && b.name(l.Name)
	}},
	"setting/repeated": {plant: func(b *bed) bool {
		l, ok := b.drawn()
		if ok {
			draws, _ := l.Get("draws")
			l.Add("draws", draws)
		}
		return ok && b.name(l.Name)
	}},
	"unit/wrong": {waits: true, plant: func(b *bed) bool {
		l, ok := b.drawn()
		if ok {
			l.Set("draws", "27 V")
		}
		return ok && b.name(l.Name)
	}},
	"value/range": {waits: true, plant: func(b *bed) bool {
		w, ok := chosen(b, b.Wires, always)
		if ok {
			w.Gauge = "3.3 mm2"
		}
		return ok && b.name(w.Name)
	}},
	"terminal/unknown": {plant: func(b *bed) bool {
		w, ok := chosen(b, b.Wires, func(w *yard.Wire) bool { return strings.HasSuffix(w.To, ".pos") })
		if ok {
			w.To += "t"
			b.Promises = nil
		}
		return ok && b.name(w.Name)
	}},
	"use/missing": {plant: func(b *bed) bool {
		b.tail = "use \"lights.hame\"\n"
		return true
	}},
	"use/outside": {plant: func(b *bed) bool {
		b.tail = "use \"../lights.hame\"\n"
		return true
	}},
	"use/loop": {plant: func(b *bed) bool {
		b.tail = "use \"a.hame\"\n"
		b.libs = map[string]string{"a.hame": "use \"b.hame\"\n", "b.hame": "use \"a.hame\"\n"}
		return true
	}},
	"name/unused": {plant: func(b *bed) bool {
		b.tail = "place attic in " + b.Zones[0].Name + "\n"
		return true
	}},
	"require/broken": {plant: func(b *bed) bool {
		l, ok := b.oneLoad()
		if ok {
			b.tail = fmt.Sprintf("require %s volts >= %.4g V\n", l.Name, 1.3*b.SystemV)
		}
		return ok
	}},
	"allow/unused": {plant: func(b *bed) bool {
		b.tail = fmt.Sprintf("allow bundle/clamps on %s because \"measured\"\n", b.Devices[0].Name)
		return true
	}},
	"allow/expired": {plant: func(b *bed) bool {
		w, ok := chosen(b, b.Wires, func(w *yard.Wire) bool { return w.Colour == "black" })
		if ok {
			w.Colour = "blue"
			b.tail = fmt.Sprintf("allow wire/colour on %s because \"as found\" until 2025-01-31\n", w.Name)
		}
		return ok
	}},
	"practice/loosened": {plant: func(b *bed) bool {
		what := b.pick("clamps 900 mm", "device load 95 %", "clear hot 20 mm")
		b.Head.Set("practice", b.Practice+" { "+what+" }")
		return b.name(b.Head.Name)
	}},
}

func (b *bed) pick(words ...string) string { return words[b.r.IntN(len(words))] }
