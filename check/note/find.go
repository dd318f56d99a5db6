package note

import (
	"fmt"
	"slices"
	"strings"

	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// The kinds of what has a note.
const (
	kindWire       = "wire"
	kindLoad       = "load"
	kindProtection = "protective device"
	kindRelay      = "relay"
	kindSwitch     = "switch"
	kindSupply     = "supply"
)

// find finds what a name stands for.
func (w *work) find(name string) error {
	for _, wire := range w.f.Harness.Wires {
		if wire.Name == name {
			w.kind, w.wire, w.elements = kindWire, wire, []int{w.n.OfWire(wire)}
			return nil
		}
	}
	for _, d := range w.f.Harness.Devices {
		if d.Name == name {
			return w.ofDevice(d)
		}
	}
	for i := range w.n.Elements {
		e := &w.n.Elements[i]
		if e.Name == name && (e.Kind == network.Fuse || e.Kind == network.Load && !e.Load.Hidden()) {
			w.kind, w.device, w.elements = kindLoad, e.Device, []int{i}
			if e.Kind == network.Fuse {
				w.kind = kindProtection
			}
			return nil
		}
	}
	return w.unknown(name)
}

// ofDevice takes a device's elements by its family.
func (w *work) ofDevice(d *harness.Device) error {
	w.device = d
	carries := func(*network.Element) bool { return false }
	switch {
	case d.Is(kinds.Supply):
		w.kind = kindSupply
		carries = suppliesBy(d)
	case d.Is(kinds.Load):
		w.kind = kindLoad
		carries = func(e *network.Element) bool { return e.Kind == network.Load && !e.Load.Hidden() }
	case d.Is(kinds.Protection, "panel"):
		return fmt.Errorf("`%s` is a panel, and each of its ways has a note of its own: %s", d.Name, some(w.namesOf(d)))
	case d.Is(kinds.Protection):
		w.kind = kindProtection
		carries = func(e *network.Element) bool { return e.Kind == network.Fuse }
	case d.Is(kinds.Switch, "relay"):
		w.kind = kindRelay
		carries = func(e *network.Element) bool { return e.Kind == network.Load }
	case d.Is(kinds.Switch):
		w.kind = kindSwitch
		carries = func(e *network.Element) bool { return e.Kind == network.Contact || e.Kind == network.Diode }
	}
	for i := range w.n.Elements {
		if e := &w.n.Elements[i]; e.Device == d && e.Wire == nil && carries(e) {
			w.elements = append(w.elements, i)
		}
	}
	if len(w.elements) == 0 {
		return w.nothing(d)
	}
	return nil
}

// suppliesBy tells by which element a supply gives: of a tap it's its device.
func suppliesBy(d *harness.Device) func(*network.Element) bool {
	kind := network.Source
	if d.Is(kinds.Supply, "tap") {
		kind = network.Fuse
	}
	return func(e *network.Element) bool { return e.Kind == kind }
}

// nothing says that a device carries no current of its own, and whose notes to
// ask for.
func (w *work) nothing(d *harness.Device) error {
	var wires []string
	for _, wire := range w.f.Harness.Wires {
		for _, e := range wire.Ends {
			if e.Terminal != nil && e.Terminal.Device == d && !slices.Contains(wires, wire.Name) {
				wires = append(wires, wire.Name)
			}
		}
	}
	if len(wires) == 0 {
		return fmt.Errorf("`%s` is a %s %s and no wire lands on it: there is nothing to work out", d.Name, d.Kind.Family, d.Kind.Name)
	}
	return fmt.Errorf("`%s` is a %s %s, and the wires on it have the notes: %s", d.Name, d.Kind.Family, d.Kind.Name, some(wires))
}

// namesOf are a panel's ways.
func (w *work) namesOf(d *harness.Device) []string {
	var names []string
	for i := range w.n.Elements {
		if e := &w.n.Elements[i]; e.Device == d && e.Kind == network.Fuse {
			names = append(names, e.Name)
		}
	}
	return names
}

// unknown names the nearest names that have a note.
func (w *work) unknown(name string) error {
	var names []string
	for _, wire := range w.f.Harness.Wires {
		names = append(names, wire.Name)
	}
	for i := range w.n.Elements {
		if e := &w.n.Elements[i]; e.Wire == nil && e.Kind != network.Joint && !(e.Load != nil && e.Load.Hidden()) {
			names = append(names, e.Name)
		}
	}
	slices.Sort(names)
	where := "`" + w.f.Harness.Name + "`"
	if w.f.Harness.Name == "" { // its header could not be read
		where = "the harness"
	}
	near := nearest(name, slices.Compact(names))
	switch {
	case len(names) == 0:
		return fmt.Errorf("nothing in %s has a note yet: notes are there for wires, loads, protective devices, switches, relays and supplies", where)
	case len(near) == 0:
		return fmt.Errorf("nothing in %s is named `%s`; a note is there for wires, loads, protective devices, switches, relays and supplies: %s",
			where, name, some(names))
	}
	return fmt.Errorf("nothing in %s is named `%s`; did you mean %s?", where, name, strings.Join(near, " or "))
}

// nearest are up to three names like a word, quoted.
func nearest(word string, names []string) []string {
	var near []string
	for range 3 {
		best := kinds.Nearest(word, names)
		if best == "" {
			break
		}
		near = append(near, "`"+best+"`")
		names = slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == best })
	}
	return near
}

// some lists the first of many names.
func some(names []string) string {
	const most = 8
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}
