package sheets

import (
	"strings"

	"hame/check/network"
	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
)

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
