package facts

import (
	"math"

	"hame/check/heat"
	"hame/check/states"
	"hame/lang/harness"
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
	bundles []*warmBundle // that have members
	loose   []looseWire   // by wire
	cables  map[cabled]heat.Wire
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
}

// looseWire is a wire by itself: its ends beyond the bundles, or all of it.
type looseWire struct {
	wire     *harness.Wire
	known    bool
	ambientC float64 // the greatest of the places of its ends
	placed   bool    // an end has a place
	model    heat.Bundle
	element  int
	amps     float64
	worst    *states.Point
}

// cabled is what makes wires alike.
type cabled struct {
	insulation string
	size       tables.Size
}

func newWarmer(f *Facts) *warmer {
	w := &warmer{f: f, cables: map[cabled]heat.Wire{}}
	for _, b := range f.Harness.Bundles {
		if len(b.Members) > 0 {
			w.bundles = append(w.bundles, w.bundled(b))
		}
	}
	for _, wire := range f.Harness.Wires {
		w.loose = append(w.loose, w.alone(wire))
	}
	return w
}

// bundled prepares a bundle.
func (w *warmer) bundled(b *harness.Bundle) *warmBundle {
	out := &warmBundle{bundle: b}
	out.ambientC, out.known = hottest(b.Zones())
	out.model = heat.Bundle{DiameterMM: b.DiameterMM, Amps: make([]float64, len(b.Members))}
	for _, m := range b.Members {
		wire, ok := w.cable(m)
		out.known = out.known && ok
		out.model.Wires = append(out.model.Wires, wire)
		out.elements = append(out.elements, w.f.Network.OfWire(m))
	}
	out.model.BoreMM, out.model.CoverDiameterMM = sheath(b.Cover, b.DiameterMM)
	return out
}

// alone prepares a wire as it lies by itself.
func (w *warmer) alone(m *harness.Wire) looseWire {
	var zones []*harness.Zone
	for _, e := range m.Ends {
		if p := e.Place(); p != nil && p.Zone != nil {
			zones = append(zones, p.Zone)
		}
	}
	out := looseWire{wire: m, element: w.f.Network.OfWire(m), placed: len(zones) > 0}
	cable, ok := w.cable(m)
	out.ambientC, out.known = hottest(zones)
	out.known = out.known && ok
	out.model = heat.Bundle{Wires: []heat.Wire{cable}, Amps: make([]float64, 1)}
	out.model.BoreMM, out.model.CoverDiameterMM = sheath(m.Cover, cable.OutsideDiameterMM)
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
	for _, b := range w.bundles {
		watts := 0.0
		for k, i := range b.elements {
			amps := p.Amps(i)
			watts += amps * amps * b.model.Wires[k].R20OhmPerM
		}
		if watts > b.watts {
			b.watts, b.hottest = watts, p
		}
	}
	for k := range w.loose {
		l := &w.loose[k]
		if amps := math.Abs(p.Amps(l.element)); amps > l.amps {
			l.amps, l.worst = amps, p
		}
	}
}

// brief: nothing grows hot while an engine cranks.
func brief(p *states.Point) bool { return p.Position.Engine == "cranking" }
