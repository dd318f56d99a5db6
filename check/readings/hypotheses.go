package readings

import (
	"hame/check/network"
	"hame/check/trial"
	"hame/lang/kinds"
)

// The sorts of suspects.
const (
	wireSort    = "wire"
	jointSort   = "joint"
	groundSort  = "ground"
	contactSort = "contact"
	deviceSort  = "device"
	loadSort    = "load"
	sourceSort  = "source"
	stuckSort   = "stuck contact"
	meterSort   = "meter"
)

const (
	openOhm  = 1e6 // stands for no connection
	leastOhm = 1e-4
)

// hypothesis is one suspect with what its fault does to the network.
type hypothesis struct {
	Suspect
	element int
	set     func(elements []network.Element, size float64) // nil for the meter
	ohm     bool                                           // its size is a resistance in ohm
	sizes   []float64                                      // that are tried, ascending
	step    float64                                        // at which its effect is still in proportion
	spread  float64                                        // by which its size differs while all is well, one standard deviation
}

// hypotheses lists what may be at fault in the settings that were measured.
func hypotheses(m *trial.Model, settings []int) []*hypothesis {
	var list []*hypothesis
	asIs := m.AsIs()
	ends := newEnds(m)
	for i := range m.Network.Elements {
		carries, stuck := m.Network.Elements[i].Kind == network.Source, false // volts are read at rest too
		for _, s := range settings {
			p := asIs.Point(s)
			a := p.Amps(i)
			carries = carries || a > carriesA || a < -carriesA
			stuck = stuck || m.Network.Elements[i].Kind == network.Contact && p.Failed == nil && a == 0
		}
		for _, h := range of(m, i, carries, stuck) {
			h.From, h.To = ends.of(i)
			list = append(list, h)
		}
	}
	return append(list, &hypothesis{
		Suspect: Suspect{Sort: meterSort, Name: "the meter"}, element: -1,
		sizes: []float64{-0.3, -0.1, -0.03, 0.03, 0.1, 0.3}, step: 0.03,
	})
}

// carriesA is a current below which nothing that a part does can be read.
const carriesA = 1e-3

// of lists what may be wrong with an element.
func of(m *trial.Model, i int, carries, stuck bool) []*hypothesis {
	e := &m.Network.Elements[i]
	bare := func() *hypothesis {
		return &hypothesis{element: i, Suspect: Suspect{Name: m.PartName(i), Existing: existing(e)}}
	}
	var list []*hypothesis
	if stuck {
		h := bare()
		h.Sort, h.set, h.sizes, h.step = stuckSort, closes(i), []float64{1}, 1
		list = append(list, h)
	}
	if !carries || e.Kind == network.Diode { // whose drop is not of a resistance
		return list
	}
	h := bare()
	switch e.Kind {
	case network.Load:
		h.load(i)
	case network.Source:
		h.source(i)
	default:
		h.resistance(e, i)
	}
	return append(list, h)
}

func existing(e *network.Element) bool {
	if e.Wire != nil {
		return e.Wire.Existing
	}
	return e.Device != nil && e.Device.Existing
}

// resistance is a hypothesis of too much of it.
func (h *hypothesis) resistance(e *network.Element, i int) {
	h.Sort = map[network.Kind]string{network.Wire: wireSort, network.Joint: jointSort, network.Contact: contactSort, network.Fuse: deviceSort}[e.Kind]
	if e.Kind == network.Joint && e.Device.Is(kinds.Ground) {
		h.Sort = groundSort
	}
	h.ohm, h.step = true, e.Ohm/2+2e-3
	h.sizes = []float64{leastOhm, 1e-3, 1e-2, 0.1, 1, 10, 1e3, openOhm}
	h.set = func(elements []network.Element, size float64) { elements[i].Ohm += size }
	h.spread = contactSpread * e.Ohm
	if e.Wire != nil {
		copper := network.WireOhm(e.Wire)
		h.spread = copperSpread*copper + contactSpread*(e.Ohm-copper)
	}
	if e.Kind == network.Fuse {
		h.spread = fuseSpread * e.Ohm
	}
}

// What differs while all is well, one standard deviation: half of what a plan's
// bands allow (common practice, no source).
const (
	contactSpread = 0.2
	copperSpread  = 0.025
	fuseSpread    = 0.075
	drawSpread    = 0.05
	hiddenSpread  = 0.2 // the machine's own draw, which is told roughly
	sourceSpread  = 0.01
	warmthSpread  = 0.08 // of copper: 20 K
)

// load is a hypothesis of a load that draws more or less than it should.
func (h *hypothesis) load(i int) {
	h.Sort, h.step, h.spread = loadSort, 0.05, drawSpread
	h.sizes = []float64{-1, -0.7, -0.4, -0.2, -0.1, 0.1, 0.2, 0.5, 1, 2, 4}
	h.set = func(elements []network.Element, size float64) {
		elements[i].Load = trial.Scaled(elements[i].Load, 1+size)
	}
}

// source is a hypothesis of a source whose volts are off.
func (h *hypothesis) source(i int) {
	h.Sort, h.step = sourceSort, 0.01
	h.sizes = []float64{-0.3, -0.15, -0.07, -0.03, 0.03, 0.07, 0.15}
	h.set = func(elements []network.Element, size float64) {
		spec := *elements[i].Source
		spec.NominalV *= 1 + size
		spec.SagsV *= 1 + size
		elements[i].Source = &spec
	}
}

// closes lets a contact that should be open conduct.
func closes(i int) func([]network.Element, float64) {
	return func(elements []network.Element, _ float64) { elements[i].Kind = network.Joint }
}

// ends names the terminals at both ends of elements.
type ends struct {
	m     *trial.Model
	names []string
}

func newEnds(m *trial.Model) ends {
	e := ends{m, make([]string, m.Network.Nodes)}
	for _, d := range m.Network.Harness.Devices {
		for _, t := range d.Terminals {
			e.names[t.Index] = t.FullName()
		}
	}
	return e
}

func (e ends) of(i int) (from, to string) {
	return e.names[e.m.Network.Elements[i].A], e.names[e.m.Network.Elements[i].B]
}
