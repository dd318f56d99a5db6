// Package yard makes harnesses from a seed, as a careful practitioner would
// build them: every shape of circuit, each sized by the published tables. Tests
// hold the check to them: what is sound must pass, and a fault that is put into
// one must be found.
package yard

import "strings"

// Item is one declaration as it is written: DECL NAME TAIL { SETTINGS }.
type Item struct {
	Decl, Name, Tail string
	Settings         []Setting
	Tall             bool // a setting to a line
}

// Setting is one setting of a block.
type Setting struct{ Key, Value string }

// Set gives a setting a value, once.
func (i *Item) Set(key, value string) *Item {
	for k := range i.Settings {
		if i.Settings[k].Key == key {
			i.Settings[k].Value = value
			return i
		}
	}
	return i.Add(key, value)
}

// Add gives a setting another time.
func (i *Item) Add(key, value string) *Item {
	i.Settings = append(i.Settings, Setting{key, value})
	return i
}

// Drop takes a setting out.
func (i *Item) Drop(key string) *Item {
	kept := i.Settings[:0:0]
	for _, s := range i.Settings {
		if s.Key != key {
			kept = append(kept, s)
		}
	}
	i.Settings = kept
	return i
}

// Get is the value of a setting, and whether it is given.
func (i *Item) Get(key string) (string, bool) {
	for _, s := range i.Settings {
		if s.Key == key {
			return s.Value, true
		}
	}
	return "", false
}

// Has reports whether a setting is given.
func (i *Item) Has(key string) bool {
	_, ok := i.Get(key)
	return ok
}

// Is reports whether it is declared so: "load led".
func (i *Item) Is(decl string) bool { return i.Decl == decl || strings.HasPrefix(i.Decl, decl+" ") }

// Wire is one wire. LengthM is 0 where its route gives the length.
type Wire struct {
	Item
	From, To   string
	Gauge      string
	Insulation string
	Colour     string
	LengthM    float64
}

// Circuit is what one protective device feeds, as far as a fault needs to know
// it. Names are those of the declarations.
type Circuit struct {
	Device   string // fuse or panel way
	RatingA  float64
	DesignA  float64 // the most that it carries
	Keyed    bool    // dead with the key off
	Hot      bool    // its device sits in a zone of 60 degC or more
	At       string  // place of the loads
	Switch   *Item
	Relay    *Item
	Loads    []*Item
	Feeds    []*Wire // in order from the device; those behind the switch last
	Returns  []*Wire // of each load
	Ends     []*Wire // the last wire to each load
	Plug     *Item
	Splice   *Item
	Conv     *Item
	Critical bool
	Sure     bool // on in the mode that works everything
}

// Harness is one sound harness.
type Harness struct {
	Seed     uint64
	SystemV  float64
	Practice string
	Wired    bool // everything returns by wire; else by a chassis
	Metric   bool
	TotalA   float64 // that all circuits draw together at worst

	Head                            *Item
	Zones, Places, Bundles, Devices []*Item
	Wires                           []*Wire
	Modes, Promises                 []*Item
	Circuits                        []*Circuit
}

// Device is the declared device of a name, or nil.
func (h *Harness) Device(name string) *Item { return find(h.Devices, name) }

// Zone is the declared zone of a name, or nil.
func (h *Harness) Zone(name string) *Item { return find(h.Zones, name) }

func find(list []*Item, name string) *Item {
	for _, i := range list {
		if i.Name == name {
			return i
		}
	}
	return nil
}

// Wire is the wire of a name, or nil.
func (h *Harness) Wire(name string) *Wire {
	for _, w := range h.Wires {
		if w.Name == name {
			return w
		}
	}
	return nil
}

// On lists the wires that land on a terminal or a device.
func (h *Harness) On(name string) []*Wire {
	var list []*Wire
	for _, w := range h.Wires {
		for _, end := range []string{w.From, w.To} {
			if end == name || strings.HasPrefix(end, name+".") {
				list = append(list, w)
				break
			}
		}
	}
	return list
}

// AllOf lists the devices that are declared so: "switch", "load led".
func (h *Harness) AllOf(decl string) []*Item {
	var list []*Item
	for _, d := range h.Devices {
		if d.Is(decl) {
			list = append(list, d)
		}
	}
	return list
}

// ZoneOf is the zone of a place.
func (h *Harness) ZoneOf(place string) *Item {
	if p := find(h.Places, place); p != nil {
		return h.Zone(strings.TrimPrefix(p.Tail, "in "))
	}
	return nil
}

// RemoveWire takes a wire out.
func (h *Harness) RemoveWire(w *Wire) {
	kept := h.Wires[:0:0]
	for _, x := range h.Wires {
		if x != w {
			kept = append(kept, x)
		}
	}
	h.Wires = kept
}
