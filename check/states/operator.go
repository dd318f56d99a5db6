package states

import (
	"slices"

	"hame/check/network"
	"hame/lang/harness"
)

// hand is a switch that the operator works, with its number of throws.
type hand struct {
	device   *harness.Device
	throws   int
	contacts []int
}

// hands lists the switches that have contacts, in the harness's order.
func hands(n *network.Network) []hand {
	all := map[*harness.Device]*hand{}
	for i := range n.Elements {
		e := &n.Elements[i]
		if e.Kind != network.Contact || e.Gate.By != network.Hand {
			continue
		}
		h := all[e.Device]
		if h == nil {
			h = &hand{device: e.Device}
			all[e.Device] = h
		}
		h.throws = max(h.throws, e.Gate.Throw)
		h.contacts = append(h.contacts, i)
	}
	var list []hand
	for _, d := range n.Harness.Devices {
		if h := all[d]; h != nil {
			list = append(list, *h)
		}
	}
	return list
}

// combo is a setting of the key with what the engine does.
type combo struct{ key, engine string }

// combos are the settings that the worst case is judged in. Cranking is judged
// in declared modes alone.
var combos = []combo{{"off", "off"}, {"acc", "off"}, {"on", "off"}, {"on", "idle"}, {"on", "running"}}

// differing drops the combos that this network cannot tell from an earlier one.
func differing(n *network.Network) []combo {
	var list []combo
	var marks []string
	for _, c := range combos {
		mark := signature(n, c)
		if !slices.Contains(marks, mark) {
			list, marks = append(list, c), append(marks, mark)
		}
	}
	return list
}

// signature is how everything stands that follows the key or the engine.
func signature(n *network.Network, c combo) string {
	p := &Position{Key: c.key, Engine: c.engine}
	var mark []byte
	note := func(on bool) {
		if on {
			mark = append(mark, '1')
		} else {
			mark = append(mark, '0')
		}
	}
	for i := range n.Elements {
		e := &n.Elements[i]
		switch {
		case e.Kind == network.Contact && (e.Gate.By == network.Key || e.Gate.By == network.Tap):
			note(closed(e, p))
		case e.Kind == network.Load && e.Load.StandbyA > 0:
			note(p.Key == "off") // it draws its standby then
		case e.Kind == network.Load && e.Load.When != network.Always:
			note(draws(e.Load, p))
		case e.Kind == network.Source && e.Source.Sort == "alternator":
			mark = append(mark, c.engine...)
		}
	}
	return string(mark)
}

// usualCharge is a battery's charge where no mode says another.
const usualCharge = 0.8

// corners are the two corners of the worst case, as positions that set nothing
// else.
func corners(h *harness.Harness) []Position {
	least := usualCharge
	for i, m := range h.Modes {
		if i == 0 || m.Charge < least {
			least = m.Charge
		}
	}
	return []Position{{Corner: ColdFull, Charge: 1}, {Corner: HotLow, Charge: least}}
}

// frames are all positions with every switch open: each corner of each combo.
func frames(n *network.Network) []Position {
	var list []Position
	for _, corner := range corners(n.Harness) {
		for _, c := range differing(n) {
			p := corner
			p.Key, p.Engine = c.key, c.engine
			list = append(list, p)
		}
	}
	return list
}
