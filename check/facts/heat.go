package facts

import (
	"math"

	"hame/check/heat"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/slab"
	"hame/lang/tables"
)

// Warmth is how hot a wire's conductor gets where it gets hottest.
type Warmth struct {
	TempC    float64         // never above heat.MeltingC
	AmbientC float64         // there
	Amps     float64         // the wire's own current then, its magnitude
	Bundle   *harness.Bundle // nil where it's hottest by itself, at a place
	At       *states.Point   // the position; nil where it carries nothing in any
	Bound    bool            // Amps is a bound that no position goes above
}

// Runaway reports whether no balance was found below the melting point of
// copper: TempC then stands for anything above.
func (w Warmth) Runaway() bool { return w.TempC >= heat.MeltingC }

// warmer keeps, while the positions are solved, what the heat is worked out
// from: for every bundle the position in which all its wires together make the
// most heat, and for every wire the one in which it carries the most itself.
// Heat is compared at 20 degC, I²R a metre.
//
// A bundle's wires are solved in these positions, with the real currents of
// all its wires, always at the greatest ambient along the bundle. So no wire's
// own heat and no bundle's sum is left out; a position in between, where a wire
// carries a little less and its neighbours a little less, isn't looked at.
// Where the positions were too many to solve each, those that were count, and
// a wire that may carry more than it did in them is solved with its bound.
// Cranking is left out: it lasts seconds, and a cable minutes to grow hot.
type warmer struct {
	f       *Facts
	first   int           // the first wire's element
	bundles []warmBundle  // that have members
	loose   []looseWire   // by wire
	most    []mostCarried // by wire
	cables  map[cabled]heat.Wire
}

// mostCarried is the position in which a wire carries the most.
type mostCarried struct {
	amps float64
	at   *states.Point // nil where it carries nothing
}

// warmBundle is a bundle with what was seen of it.
type warmBundle struct {
	bundle   *harness.Bundle
	known    bool // ambient, gauges and insulations are
	ambientC float64
	model    heat.Bundle
	elements []int // of the members
	watts    float64
	hottest  *states.Point
	worst    []heated  // by member
	modeC    []float64 // by mode and member; 0 while the engine cranks
}

// looseWire is a wire by itself: its ends beyond the bundles, or all of it.
type looseWire struct {
	cabled, known   bool    // gauge and insulation are known; the ambient too
	placed          bool    // an end has a place
	lost            bool    // it runs through a bundle that isn't known
	ambientC        float64 // the greatest of the places of its ends
	cable           heat.Wire
	boreMM, coverMM float64 // the cover's inside and outside
}

// cabled is what makes wires alike.
type cabled struct {
	insulation string
	size       tables.Size
}

func newWarmer(f *Facts) *warmer {
	h := f.Harness
	w := &warmer{
		f: f, cables: map[cabled]heat.Wire{}, bundles: make([]warmBundle, 0, len(h.Bundles)),
		loose: make([]looseWire, len(h.Wires)), most: make([]mostCarried, len(h.Wires)),
	}
	if len(h.Wires) > 0 {
		w.first = f.Network.OfWire(h.Wires[0])
	}
	for k, wire := range h.Wires {
		w.loose[k] = w.alone(wire)
	}
	var lists memberLists
	for _, b := range h.Bundles {
		if len(b.Members) > 0 {
			w.bundles = append(w.bundles, w.bundled(b, &lists))
		}
	}
	return w
}

// memberLists is memory for the lists of all bundles.
type memberLists struct {
	wires    slab.Of[heat.Wire]
	amps     slab.Of[float64]
	elements slab.Of[int]
}

// bundled prepares a bundle.
func (w *warmer) bundled(b *harness.Bundle, lists *memberLists) warmBundle {
	count := len(b.Members)
	out := warmBundle{bundle: b, elements: lists.elements.Take(count)}
	out.ambientC, out.known = hottest(b.Zones())
	out.model = heat.Bundle{DiameterMM: b.DiameterMM, Amps: lists.amps.Take(count), Wires: lists.wires.Take(count)}
	for k, m := range b.Members {
		l := &w.loose[m.Index]
		out.known = out.known && l.cabled
		out.model.Wires[k], out.elements[k] = l.cable, w.f.Network.OfWire(m)
	}
	out.model.BoreMM, out.model.CoverDiameterMM = sheath(b.Cover, b.DiameterMM)
	return out
}

// alone prepares a wire as it lies by itself.
func (w *warmer) alone(m *harness.Wire) looseWire {
	var at [2]*harness.Zone
	zones := at[:0]
	for _, e := range m.Ends {
		if p := e.Place(); p != nil && p.Zone != nil {
			zones = append(zones, p.Zone)
		}
	}
	out := looseWire{placed: len(zones) > 0}
	out.cable, out.cabled = w.cable(m)
	out.ambientC, out.known = hottest(zones)
	out.known = out.known && out.cabled
	out.boreMM, out.coverMM = sheath(m.Cover, out.cable.OutsideDiameterMM)
	return out
}

// cable is the wire as the model has it; false where its gauge or insulation
// is not known.
func (w *warmer) cable(m *harness.Wire) (heat.Wire, bool) {
	key := cabled{m.Insulation, m.Size}
	if wire, ok := w.cables[key]; ok {
		return wire, true
	}
	cable, ok := m.Cable()
	if !ok || m.AreaMM2 == 0 {
		return heat.Wire{}, false
	}
	w.cables[key] = heat.WireOf(cable, m.Size)
	return w.cables[key], true
}

// sheath is a cover's bore and outside diameter in mm round a bundle. One that
// comes in bores and names none is taken in the least that fits.
func sheath(c *harness.Cover, diameterMM float64) (boreMM, outsideMM float64) {
	if c == nil {
		return 0, 0
	}
	kind, _ := tables.Cover(c.Name)
	boreMM = max(c.BoreM*1000, diameterMM)
	if kind.Bored && c.BoreM == 0 {
		if bore, _, ok := tables.BoreFor(diameterMM); ok {
			boreMM = bore
		}
	}
	return boreMM, boreMM + 2*kind.WallMM
}

// hottest is the greatest ambient of zones; false where there is none or one
// does not say.
func hottest(zones []*harness.Zone) (float64, bool) {
	most := math.Inf(-1)
	for _, z := range zones {
		if !z.Known {
			return 0, false
		}
		most = max(most, z.MostC)
	}
	return most, len(zones) > 0
}

// see takes a position in.
func (w *warmer) see(p *states.Point) {
	if brief(p) {
		return
	}
	for k := range w.bundles {
		b := &w.bundles[k]
		watts := 0.0
		for k, i := range b.elements {
			amps := p.Amps(i)
			watts += amps * amps * b.model.Wires[k].R20OhmPerM
		}
		if watts > b.watts {
			b.watts, b.hottest = watts, p
		}
	}
	for k := range w.most {
		m := &w.most[k]
		if amps := math.Abs(p.Amps(w.first + k)); amps > m.amps {
			m.amps, m.at = amps, p
		}
	}
}

// brief: nothing grows hot while an engine cranks.
func brief(p *states.Point) bool { return p.Position.Engine == "cranking" }
