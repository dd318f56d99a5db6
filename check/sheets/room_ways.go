package sheets

import (
	"slices"

	"hame/check/network"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// way is a panel's way with all that its current goes through.
type way struct {
	name, label, device string
	feed, back          []string // names of what it goes through, each in the current's order
	unknown             []string // those that no limit is known of
	least               *part    // what has the least left; nil where nothing is known
}

// worth is what a further load may draw.
func (y way) worth() sheet.Cell {
	switch {
	case y.least == nil:
		return sheet.Is(unknown)
	case len(y.unknown) > 0 && y.least.bound: // more may be left of the one, and less of the other
		c := figure(max(0, y.least.left()))
		c.Words += " " + unknown
		return c
	case len(y.unknown) > 0:
		return atMost(max(0, y.least.left()))
	}
	return figure(max(0, y.least.left()))
}

// binding is what has the least left, in words.
func (y way) binding() string {
	if y.least == nil {
		return unknown
	}
	words := y.least.kind + " " + y.least.item + ": " + figure(y.least.used).Words + " of " + figure(*y.least.capacity).Words + " A used"
	if y.least.beyond {
		words += ", counted as amperes of the rail"
	}
	if y.least.left() < 0 {
		words += ", more than it may"
	}
	return words
}

// ways lists the ways of all panels.
func (w *roomWork) ways() []way {
	var all []way
	for _, d := range w.Harness.Devices {
		if !d.Is(kinds.Protection, "panel") {
			continue
		}
		for _, args := range d.Given("way") {
			t := d.Terminal(args.RepeatKey())
			if t == nil {
				continue
			}
			y := way{name: t.FullName(), label: args.Word("label"), device: args.Word("device")}
			if amps, ok := args.SI(""); ok {
				y.device += " " + wording.Number(amps) + " A"
			}
			w.fill(&y, d, t)
			all = append(all, y)
		}
	}
	return all
}

// fill follows a way to its source and back.
func (w *roomWork) fill(y *way, panel *harness.Device, t *harness.Terminal) {
	if i, fitted := w.wayElement(t); fitted {
		y.pass(w.rows[w.byElement[i]])
	} else {
		w.spare(y, panel)
	}
	w.up(y, panel.Terminal("feed").Index, panel.At, 1, 0)
	slices.Reverse(y.feed)
}

// up follows the feed from a node to its source, and the return from a place. Each
// ampere there is share amperes on the way itself: beyond a converter it's another.
func (w *roomWork) up(y *way, node int, at *harness.Place, share float64, deep int) {
	const deepest = 4 // converters one behind the other
	route, source, ok := w.toSource(node)
	if !ok || deep > deepest {
		y.unknown = append(y.unknown, "its feed: no source leads to it")
		return
	}
	here := way{}
	w.follow(&here, node, route, &y.feed)
	y.feed = append(y.feed, w.Facts.Network.Elements[source].Name)
	w.home(&here, at, source, &y.back)
	if k, ok := w.byElement[source]; ok {
		here.pass(w.rows[k])
	}
	spec := w.Facts.Network.Elements[source].Source
	if w.charging >= 0 && spec.Sort != "converter" {
		here.pass(w.rows[w.charging])
	}
	y.take(here, share)
	if spec.Sort == "converter" && spec.Input >= 0 && spec.NominalV > 0 {
		input := &w.Facts.Network.Elements[spec.Input]
		w.up(y, input.A, input.Device.At, share*spec.TakesV*spec.Efficient/spec.NominalV, deep+1)
	}
}

// take takes in a stretch of the way, its amperes as they are on the way itself.
func (y *way) take(stretch way, share float64) {
	for _, name := range stretch.unknown {
		y.unknown = once(y.unknown, name)
	}
	r := stretch.least
	if r == nil {
		return
	}
	if share != 1 {
		capacity := *r.capacity * share
		r = &part{kind: r.kind, item: r.item, capacity: &capacity, used: r.used * share, bound: r.bound, beyond: true}
	}
	y.pass(*r)
}

// wayElement is the element of a way that has a device.
func (w *roomWork) wayElement(t *harness.Terminal) (int, bool) {
	for _, i := range w.Facts.Network.At[t.Index] {
		if e := &w.Facts.Network.Elements[i]; e.Kind == network.Fuse && e.Fuse.Way == t {
			return i, true
		}
	}
	return 0, false
}

// spare bounds an empty way by the greatest device that the panel takes in one.
func (w *roomWork) spare(y *way, panel *harness.Device) {
	each, ok := panel.SI("each")
	if !ok {
		y.unknown = append(y.unknown, "`each` of "+panel.Name)
		return
	}
	share, _ := w.asked.SteadyShare(&network.Device{Of: panel, AtPlace: panel.At})
	capacity := each * share
	y.pass(part{kind: "a way of", item: panel.Name, capacity: &capacity})
}

// pass takes a part on the way in.
func (y *way) pass(r part) {
	switch {
	case r.capacity == nil:
		y.unknown = once(y.unknown, r.item)
	case y.least == nil || r.left() < y.least.left():
		y.least = &r
	}
}

// follow takes in what a route goes through, and the points on it.
func (w *roomWork) follow(y *way, node int, route []int, names *[]string) {
	w.point(y, node, names)
	for _, i := range route {
		e := &w.Facts.Network.Elements[i]
		w.element(y, i, names)
		node = e.A + e.B - node
		w.point(y, node, names)
	}
}

func (w *roomWork) point(y *way, node int, names *[]string) {
	if k, ok := w.byNode[node]; ok {
		y.pass(w.rows[k])
		*names = once(*names, w.rows[k].item)
	}
}

func (w *roomWork) element(y *way, i int, names *[]string) {
	e := &w.Facts.Network.Elements[i]
	switch k, listed := w.byElement[i]; {
	case listed:
		y.pass(w.rows[k])
		*names = once(*names, w.rows[k].item)
	case e.Wire != nil: // it serves one load, or ends in nothing
		r := part{kind: "wire", item: e.Wire.Name}
		r.used, _ = w.steady(i)
		if a := w.Facts.Wire(e.Wire).Ampacity; a != nil {
			r.capacity = &a.Amps
		}
		y.pass(r)
		*names = once(*names, e.Wire.Name)
	case e.Kind == network.Diode:
		r := part{kind: "diode", item: e.Name}
		r.used, _ = w.steady(i)
		if amps, ok := e.Device.SI("rating"); ok {
			r.capacity = &amps
		}
		y.pass(r)
		*names = once(*names, e.Name)
	}
}

// toSource is the way of the fewest elements from a panel's feed against the
// current to a battery, else to another source.
func (w *roomWork) toSource(node int) (route []int, source int, ok bool) {
	for _, sorts := range [][]string{{"battery"}, {"alternator", "converter"}} {
		at := map[int]int{}
		for _, i := range slices.Backward(w.Facts.Sources()) {
			if slices.Contains(sorts, w.Facts.Network.Elements[i].Source.Sort) {
				at[w.Facts.Network.Hot(i)] = i
			}
		}
		found := -1
		route, ok = w.Facts.Route(node, func(n int) bool {
			i, hot := at[n]
			if hot {
				found = i
			}
			return hot
		}, w.against)
		if ok {
			return route, found, true
		}
	}
	return nil, 0, false
}

// against passes feeds against the current, every contact closed.
func (w *roomWork) against(i, from int) bool {
	e := &w.Facts.Network.Elements[i]
	switch {
	case e.Kind == network.Load || e.Kind == network.Source || w.Facts.Network.Return(e.A+e.B-from):
		return false
	case e.Kind == network.Diode:
		return from == e.B
	}
	return true
}

// home follows the return from the first ground point at a place.
func (w *roomWork) home(y *way, at *harness.Place, source int, names *[]string) {
	e := &w.Facts.Network.Elements[source]
	cold := e.A + e.B - w.Facts.Network.Hot(source)
	for _, d := range w.Harness.Devices {
		if !d.Is(kinds.Ground, "stud", "bus") || at == nil || d.At != at {
			continue
		}
		node := d.Terminals[0].Index
		route, ok := w.Facts.Route(node, func(n int) bool { return n == cold }, func(i, from int) bool { return w.Facts.Passes(nil, i, from) })
		if ok {
			w.follow(y, node, route, names)
			return
		}
	}
	y.unknown = append(y.unknown, "the return: no ground point beside it")
}
