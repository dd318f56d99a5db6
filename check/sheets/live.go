package sheets

import (
	"fmt"
	"strings"

	"hame/check/network"
	"hame/check/rules"
	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
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
	s.Add(sheet.Heading{Words: "By the position of the key"})
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
}

// turn is a column with a switch held on a throw, or the engine held.
type turn struct {
	column int
	device *harness.Device
	throw  int
	engine string
}

func newLiveWork(p *Pack) *liveWork {
	w := &liveWork{Pack: p, asked: rules.Ask(p.Facts), hands: handSwitches(p.Facts), turned: map[turn]*power{}}
	for _, c := range keyColumns {
		sure := sureCoils(p.Facts, c)
		w.sure = append(w.sure, sure)
		w.keys = append(w.keys, powerIn(p.Facts, c, sure, nil))
	}
	for n, m := range p.Harness.Modes {
		w.modes = append(w.modes, w.inMode(n, m))
	}
	return w
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
	for _, it := range g.items {
		r := it.row()
		for k := range keyColumns {
			r.Cells = append(r.Cells, w.mark(k, it.nodes))
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

// mark is an item's state in a column, and what settles it.
func (w *liveWork) mark(k int, nodes []int) sheet.Cell {
	c := stateCell(w.keys[k].of(nodes))
	if w.keys[k].of(nodes) != mayBe {
		return c
	}
	settled := w.settledBy(k, nodes)
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

func (w *liveWork) turn(t turn) *power {
	if p, ok := w.turned[t]; ok {
		return p
	}
	c, forced := keyColumns[t.column], map[*harness.Device]int{}
	if t.device != nil {
		forced[t.device] = t.throw
	}
	if t.engine != "" {
		c.engines = []string{t.engine}
	}
	p := powerIn(w.Facts, c, w.sure[t.column], forced)
	w.turned[t] = p
	return p
}

// groups are all items: every point of the feed side, then by what one looks for.
func (w *liveWork) groups() []itemGroup {
	return []itemGroup{w.rails(), w.loadItems(), w.connectorItems(), w.metalItems()}
}

// rails are the points that wires and mated contacts tie together.
func (w *liveWork) rails() itemGroup {
	g := itemGroup{name: "rails", title: "Rails: what is tied together by wires", columns: []sheet.Column{{Name: "place", Title: "place"}, {Name: "wires", Title: "wires"}}}
	point, at := w.Facts.Network.Tied(), map[int]int{}
	for _, d := range w.Harness.Devices {
		for _, t := range d.Terminals {
			if w.Facts.Network.Return(t.Index) || len(t.Wires) == 0 {
				continue
			}
			k, met := at[point[t.Index]]
			if !met {
				k = len(g.items)
				at[point[t.Index]] = k
				g.items = append(g.items, item{name: t.FullName(), more: []string{"", ""}, nodes: []int{t.Index}})
			} else {
				g.items[k].name += ", " + t.FullName()
			}
			g.items[k].more[0] = with(g.items[k].more[0], placeOf(d))
			for _, wire := range t.Wires {
				g.items[k].more[1] = with(g.items[k].more[1], wire.Name)
			}
		}
	}
	return g
}

// with adds a name to a list of names, once.
func with(names, name string) string {
	if names == "" {
		return name
	}
	return strings.Join(once(strings.Split(names, ", "), name), ", ")
}

func (w *liveWork) loadItems() itemGroup {
	g := itemGroup{name: "loads", title: "Loads: their feed terminals", columns: []sheet.Column{{Name: "place", Title: "place"}, {Name: "whose", Title: "whose"}}}
	for i := range w.Facts.Network.Elements {
		e := &w.Facts.Network.Elements[i]
		if e.Kind != network.Load || !e.Device.Is(kinds.Load) {
			continue
		}
		node := e.A
		if w.Facts.Network.Return(node) {
			node = e.B
		}
		if !w.Facts.Network.Return(node) {
			g.items = append(g.items, item{name: e.Name, more: []string{placeOf(e.Device), own(e.Device.Existing)}, nodes: []int{node}})
		}
	}
	return g
}

func (w *liveWork) connectorItems() itemGroup {
	g := itemGroup{name: "connectors", title: "Connectors: their cavities, mated", columns: []sheet.Column{{Name: "place", Title: "place"}, {Name: "function", Title: "function"}, {Name: "whose", Title: "whose"}}}
	for _, d := range w.Harness.Devices {
		if !d.Is(kinds.Join, "connector") {
			continue
		}
		for _, t := range d.Terminals {
			half, n, _ := strings.Cut(t.Name, ".")
			other := d.Terminal(map[string]string{"female": "male", "male": "female"}[half] + "." + n)
			if other != nil && half == "male" || w.Facts.Network.Return(t.Index) {
				continue
			}
			nodes, wired := []int{t.Index}, len(t.Wires) > 0
			if other != nil {
				nodes, wired = append(nodes, other.Index), wired || len(other.Wires) > 0
			}
			if wired {
				g.items = append(g.items, item{name: d.Name + "." + n, more: []string{placeOf(d), functionOf(d, n), own(d.Existing)}, nodes: nodes})
			}
		}
	}
	return g
}

// functionOf is what a connector's cavity is for, as declared.
func functionOf(d *harness.Device, cavity string) string {
	for _, args := range d.Given("way") {
		if args.RepeatKey() == cavity {
			return args.Word("function")
		}
	}
	return ""
}

// metalItems are posts, studs, buses and feeds of panels.
func (w *liveWork) metalItems() itemGroup {
	g := itemGroup{name: "metal", title: "Posts, studs, buses: metal that a tool can touch", columns: []sheet.Column{{Name: "place", Title: "place"}, {Name: "cover", Title: "cover"}, {Name: "whose", Title: "whose"}}}
	for _, d := range w.Harness.Devices {
		for _, t := range d.Terminals {
			if !w.asked.Metal(t) || w.Facts.Network.Return(t.Index) || len(t.Wires) == 0 && !d.Is(kinds.Supply) {
				continue
			}
			cover := "BARE"
			if d.Covered {
				cover = "covered"
			}
			g.items = append(g.items, item{name: t.FullName(), more: []string{placeOf(d), cover, own(d.Existing)}, nodes: []int{t.Index}})
		}
	}
	return g
}
