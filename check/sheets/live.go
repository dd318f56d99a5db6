package sheets

import (
	"fmt"
	"strings"

	"hame/check/rules"
	"hame/check/sheet"
	"hame/lang/harness"
)

var _ = register(Maker{
	Name: "live", Title: "What is live",
	Summary: "What is live in each position of the key and in each mode: rails, loads, connectors, studs",
	Make:    liveSheet,
})

const liveWarning = "Dead on this paper is not dead on the machine: a wrong wire, a welded contact, a motor that coasts or a charged part can make it live. " +
	"Take the battery's negative off, and prove dead with a meter before you touch."

const liveMarks = "LIVE: a source's pole leads to it in every setting of the switches, through closed contacts or through a load whose return is open. " +
	"dead: in none. may be: in some; behind it, the switches of which one throw alone settles it. The machine as drawn, every connector mated; the return side is left out. " +
	"off and acc: engine off. on: engine off, idling or running. start: engine cranking."

// item is a row: something with metal that may be live.
type item struct {
	name  string
	more  []string // what stands in the columns between
	nodes []int
}

// itemGroup is a table of items.
type itemGroup struct {
	name, title string
	columns     []sheet.Column // between the name and the marks
	items       []item
}

func liveSheet(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	s.Add(sheet.Text{Words: liveWarning, Weight: sheet.Warning}, small(liveMarks))
	if p.Harness.Torn || p.Harness.Hazy {
		s.Add(sheet.Text{Words: "Part of the harness could not be read. What it joins is left out here, and what is called dead may be live by it.", Weight: sheet.Warning})
	}
	w := newLiveWork(p)
	groups := w.groups()
	heading := "By the position of the key"
	if len(w.masters) > 0 {
		heading += ", the master switch closed; and with it open, whatever the key"
	}
	s.Add(sheet.Heading{Words: heading})
	for _, g := range groups {
		s.Add(w.byKey(g))
	}
	s.Add(sheet.Heading{Words: "In each mode, as it is declared"})
	for _, g := range groups {
		for from := 0; from < len(p.Harness.Modes); from += modesAcross {
			s.Add(w.byMode(g, from, min(from+modesAcross, len(p.Harness.Modes))))
		}
	}
	return s
}

// modesAcross is how many modes stand side by side.
const modesAcross = 6

// liveWork is what the sheet is made from.
type liveWork struct {
	*Pack
	asked  rules.Asked
	keys   []*power // by column
	sure   []map[int]bool
	modes  []*power
	hands  []*harness.Device
	turned map[turn]*power
	// masters are the switches that cut the battery off: closed in the columns of
	// the key, and open in one of their own, for which cut has a power a key.
	masters []*harness.Device
	cut     []*power
}

// turn is a column with a switch held on a throw, the engine held, or a relay taken
// to pull in where it is fed.
type turn struct {
	column int
	device *harness.Device
	throw  int
	engine string
	pulled int // its coil's element, from 1; 0 for none
}

func newLiveWork(p *Pack) *liveWork {
	w := &liveWork{Pack: p, asked: rules.Ask(p.Facts), hands: handSwitches(p.Facts), turned: map[turn]*power{}}
	for _, d := range w.hands {
		if d.Has("master") {
			w.masters = append(w.masters, d)
		}
	}
	for _, c := range keyColumns {
		sure := sureCoils(p.Facts, c)
		w.sure = append(w.sure, sure)
		w.keys = append(w.keys, powerIn(p.Facts, c, sure, w.mastersOn(1)))
		if len(w.masters) > 0 {
			w.cut = append(w.cut, powerIn(p.Facts, c, sure, w.mastersOn(0)))
		}
	}
	for n, m := range p.Harness.Modes {
		w.modes = append(w.modes, w.inMode(n, m))
	}
	return w
}

// mastersOn holds the masters on a throw.
func (w *liveWork) mastersOn(throw int) map[*harness.Device]int {
	forced := map[*harness.Device]int{}
	for _, d := range w.masters {
		forced[d] = throw
	}
	return forced
}

// cutOff is an item's state with the masters open, whatever the key.
func (w *liveWork) cutOff(nodes []int) state {
	first := w.cut[0].of(nodes)
	for _, p := range w.cut[1:] {
		if p.of(nodes) != first {
			return mayBe
		}
	}
	return first
}

// inMode holds every switch where a mode has it, and every relay where it was
// solved to be.
func (w *liveWork) inMode(n int, m *harness.Mode) *power {
	point := w.Facts.Survey.Modes[n]
	forced := map[*harness.Device]int{}
	for _, d := range w.hands {
		forced[d] = point.Position.Throws[d]
	}
	out := &power{f: w.Facts, column: column{m.Key, []string{m.Engine}}, forced: forced, inMay: point.In, inMust: point.In}
	out.reach()
	return out
}

func (w *liveWork) byKey(g itemGroup) *sheet.Table {
	t := g.table(g.name + "_by_key")
	for _, c := range keyColumns {
		t.Columns = append(t.Columns, sheet.Column{Name: "key_" + c.key, Title: c.key})
	}
	if len(w.masters) > 0 {
		t.Columns = append(t.Columns, sheet.Column{Name: "master_open", Title: "master open"})
	}
	for _, it := range g.items {
		r := it.row()
		for k := range keyColumns {
			r.Cells = append(r.Cells, w.mark(k, it.nodes))
		}
		if len(w.masters) > 0 {
			r.Cells = append(r.Cells, stateCell(w.cutOff(it.nodes)))
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

func (w *liveWork) byMode(g itemGroup, from, to int) *sheet.Table {
	name := g.name + "_by_mode"
	if from > 0 {
		name += fmt.Sprintf("_%d", from/modesAcross+1)
	}
	t := g.table(name)
	for _, m := range w.Harness.Modes[from:to] {
		t.Columns = append(t.Columns, sheet.Column{Name: "mode_" + m.Name, Title: m.Name})
	}
	for _, it := range g.items {
		r := it.row()
		for n := from; n < to; n++ {
			if why := w.unsolved(n); why != "" {
				r.Cells = append(r.Cells, sheet.Is(unknown))
				continue
			}
			r.Cells = append(r.Cells, stateCell(w.modes[n].of(it.nodes)))
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

func (g itemGroup) table(name string) *sheet.Table {
	t := &sheet.Table{Name: name, Title: g.title, Empty: "None."}
	t.Columns = append([]sheet.Column{{Name: "item", Title: "item"}}, g.columns...)
	return t
}

func (it item) row() sheet.Row {
	r := sheet.Row{Cells: []sheet.Cell{sheet.Is(it.name)}}
	r.Name, _, _ = strings.Cut(it.name, ",")
	for _, words := range it.more {
		r.Cells = append(r.Cells, sheet.Is(words))
	}
	return r
}

func stateCell(s state) sheet.Cell {
	switch s {
	case live:
		return sheet.Cell{Words: "LIVE", Strong: true}
	case mayBe:
		return sheet.Is("may be")
	}
	return sheet.Is("dead")
}
