package sheets

import (
	"maps"
	"strings"

	"hame/check/sheet"
)

// mark is an item's state in a column, and what settles it.
func (w *liveWork) mark(k int, nodes []int) sheet.Cell {
	c := stateCell(w.keys[k].of(nodes))
	if w.keys[k].of(nodes) != mayBe {
		return c
	}
	settled := w.settledBy(k, nodes)
	if len(settled) == 0 {
		settled = w.weakRelays(k, nodes)
	}
	if len(settled) == 0 {
		settled = []string{"several switches together"}
	}
	return sheet.Is(c.Words + ": " + strings.Join(settled, ", "))
}

// settledBy names what settles whether something is live: the switches that do so
// on one throw by themselves, and the engine.
func (w *liveWork) settledBy(k int, nodes []int) []string {
	var names []string
	for _, d := range w.hands {
		if d.Has("master") {
			continue
		}
		throws, _ := d.SI("throws")
		for t := 0; t <= max(1, int(throws)); t++ {
			if w.turn(turn{column: k, device: d, throw: t}).of(nodes) != mayBe {
				names = append(names, d.Name)
				break
			}
		}
	}
	for _, engine := range keyColumns[k].engines {
		if len(keyColumns[k].engines) > 1 && w.turn(turn{column: k, engine: engine}).of(nodes) != mayBe {
			return append(names, "the engine")
		}
	}
	return names
}

// weakRelays names the relays that may not pull in for want of volts, and settle
// it by that.
func (w *liveWork) weakRelays(k int, nodes []int) []string {
	var names []string
	for _, i := range coilsOf(w.Facts) {
		if !w.sure[k][i] && w.turn(turn{column: k, pulled: i + 1}).of(nodes) != mayBe {
			names = append(names, w.Facts.Network.Elements[i].Name+" (short of volts)")
		}
	}
	return names
}

func (w *liveWork) turn(t turn) *power {
	if p, ok := w.turned[t]; ok {
		return p
	}
	c, forced := keyColumns[t.column], w.mastersOn(1)
	if t.device != nil {
		forced[t.device] = t.throw
	}
	if t.engine != "" {
		c.engines = []string{t.engine}
	}
	sure := w.sure[t.column]
	if t.pulled > 0 {
		sure = maps.Clone(sure)
		sure[t.pulled-1] = true
	}
	p := powerIn(w.Facts, c, sure, forced)
	w.turned[t] = p
	return p
}
