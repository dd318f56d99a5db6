package harness

import (
	"slices"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/tables"
)

// Wire is one wire, routed. What is asked of it over and over stands together.
type Wire struct {
	Name       string
	Index      int // in the harness's Wires
	Ends       [2]End
	Size       tables.Size // zero where Auto or unknown
	AreaMM2    float64     // nominal; 0 where Auto or unknown
	LengthM    float64
	Auto       bool // its gauge is still to be chosen
	Existing   bool
	Via        bool // its route is given
	Reached    bool // Route joins its ends (an empty one within a place too)
	LengthSaid bool
	HasLength  bool
	astray     bool              // its ends join nothing
	unsaid     bool              // what its length hangs on is given with a mistake
	cable      *tables.CableType // of Insulation, nil where that is none
	zones      []*Zone
	Route      []*Bundle
	Cover      *Cover
	settings
	Insulation string // a designation; "" where none is said
	Colour     string
	Stripe     string
	Gauge      quantity.Quantity
	GaugeSpan  source.Span
	Origin     Origin
}

// Bound reports whether both ends could be bound.
func (w *Wire) Bound() bool {
	for _, e := range w.Ends {
		if e.Terminal == nil && !e.Capped {
			return false
		}
	}
	return true
}

// Zones lists the zones that the wire runs through: of its bundles and of the
// places of its ends, each once. They are the asker's to read, not to change.
func (w *Wire) Zones() []*Zone { return w.zones }

// through works the wire's zones out, in a list that is written over.
func (w *Wire) through(list []*Zone) []*Zone {
	list = list[:0]
	add := func(z *Zone) {
		if !slices.Contains(list, z) {
			list = append(list, z)
		}
	}
	for _, e := range w.Ends {
		if p := e.Place(); p != nil && p.Zone != nil {
			add(p.Zone)
		}
	}
	for _, b := range w.Route {
		for _, z := range b.zones {
			add(z)
		}
	}
	return list
}

// endReachM is what of a wire may stick out of its sheath at each end to reach
// its terminal: about a hand's breadth (common practice, no source).
const endReachM = 0.1

// BareM is the length of the wire that lies in no cover: none where it has one
// of its own, else what is longer than the covered bundles on its way.
func (w *Wire) BareM() float64 {
	if w.Cover != nil {
		return 0
	}
	bare := w.LengthM
	for _, b := range w.Route {
		if b.Cover != nil {
			bare -= b.LengthM
		}
	}
	return max(bare, 0)
}

// Sheathed reports whether the wire is covered all the way, but for what
// reaches out to its two terminals.
func (w *Wire) Sheathed() bool {
	const rounding = 1e-9
	return w.Cover != nil || len(w.Route) > 0 && w.BareM() <= 2*endReachM+rounding
}
