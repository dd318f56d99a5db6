package states

import (
	"math"

	"hame/check/circuit"
	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/tables"
)

// Solver solves one network in any position. It is not for several goroutines
// at once; Clone it.
type Solver struct {
	Network  *network.Network
	net      *circuit.Net
	branches []circuit.Branch // by element; -1 where the element has none
	element  []int            // by branch
	coils    []int            // elements that are relays' coils
	relays   []int            // elements that are relays' contacts
	latches  []int            // coils that their own contact may feed
	outputs  map[int]int      // of the inputs of converters: their outputs
	sneaks   []bool           // by element: see sneaks
	state    *circuit.State
	coldC    []float64 // by element: the least ambient along it
	hotC     []float64 // and the greatest
}

const (
	// unknownOhm keeps the node of a load of unknown draw where it is.
	unknownOhm = 1e6
	// diodeOhm is a diode's slope (common practice, no source).
	diodeOhm = 0.01
	// roomC stands in for a zone without an ambient.
	roomC = 20.0
)

// NewSolver does the work that is the same in all positions.
func NewSolver(n *network.Network) *Solver {
	s := &Solver{
		Network: n, branches: make([]circuit.Branch, len(n.Elements)),
		coldC: make([]float64, len(n.Elements)), hotC: make([]float64, len(n.Elements)),
	}
	b := circuit.NewBuilder()
	nodes := make([]circuit.Node, n.Nodes)
	for i := range nodes {
		nodes[i] = b.Node()
	}
	for _, seed := range n.Grounds() {
		b.Reference(nodes[seed])
	}
	for i := range n.Elements {
		s.branches[i] = -1
		s.add(b, nodes, i)
		s.coldC[i], s.hotC[i] = ambients(&n.Elements[i])
	}
	s.net = b.Compile()
	s.state = s.net.State()
	s.list()
	s.latches = latches(n, s.relays)
	s.sneaks = sneaks(n)
	return s
}

// list notes what is asked for in every position.
func (s *Solver) list() {
	s.element = make([]int, s.net.Branches())
	s.outputs = map[int]int{}
	for i, br := range s.branches {
		if br >= 0 {
			s.element[br] = i
		}
		switch e := &s.Network.Elements[i]; {
		case e.Kind == network.Load && e.Load.Coil != nil:
			s.coils = append(s.coils, i)
		case e.Kind == network.Contact && e.Gate.By == network.Relay && e.Gate.Coil >= 0:
			s.relays = append(s.relays, i)
		case e.Kind == network.Source && e.Source.Sort == "converter" && e.Source.Input >= 0:
			s.outputs[e.Source.Input] = i
		}
	}
}

// Clone makes a solver for another goroutine.
func (s *Solver) Clone() *Solver {
	c := *s
	c.state = s.net.State()
	return &c
}

func (s *Solver) add(b *circuit.Builder, nodes []circuit.Node, i int) {
	e := &s.Network.Elements[i]
	a, c := nodes[e.A], nodes[e.B]
	switch e.Kind {
	case network.Wire, network.Joint, network.Fuse:
		s.branches[i] = b.Resistor(a, c, e.Ohm)
	case network.Contact:
		s.branches[i] = b.Contact(a, c, e.Ohm)
	case network.Diode:
		forward, _ := e.Device.SI("forward")
		s.branches[i] = b.Diode(a, c, forward, diodeOhm)
	case network.Load:
		s.addLoad(b, a, c, i)
	case network.Source:
		s.addSource(b, nodes, i)
	}
}

func (s *Solver) addLoad(b *circuit.Builder, a, c circuit.Node, i int) {
	l := s.Network.Elements[i].Load
	switch {
	case l.Sort == "converter": // added with its output
	case l.Ohm > 0:
		s.branches[i] = b.Resistor(a, c, l.Ohm)
	case l.Watts > 0 && l.Sort == "bulb":
		s.branches[i] = b.Bulb(a, c, l.Watts, l.AtV)
	case l.Watts > 0:
		s.branches[i] = b.Power(a, c, l.Watts, l.LeastV)
	case l.Amps > 0:
		s.branches[i] = b.Current(a, c, l.Amps, l.AtV, l.Power)
	default:
		s.branches[i] = b.Resistor(a, c, unknownOhm)
	}
}

func (s *Solver) addSource(b *circuit.Builder, nodes []circuit.Node, i int) {
	e := &s.Network.Elements[i]
	a, c := nodes[e.A], nodes[e.B]
	spec := e.Source
	if spec.Sort != "converter" || spec.Input < 0 {
		s.branches[i] = b.Source(a, c, circuit.Source{Volts: spec.NominalV, Ohm: spec.Ohm, MostOut: circuit.Unlimited, MostIn: spec.AcceptsA})
		return
	}
	in := &s.Network.Elements[spec.Input]
	s.branches[spec.Input], s.branches[i] = b.Converter(nodes[in.A], nodes[in.B], a, c, circuit.Converter{
		Volts: spec.NominalV, Ohm: spec.Ohm, MostOut: spec.OutputA, Efficiency: spec.Efficient, LeastIn: converterLeast * spec.TakesV,
	})
}

// converterLeast is where a converter gives up, of the volts that it takes: no
// figure was seen; makers say about three quarters (common practice).
const converterLeast = 0.75

// ambients are the least and the greatest ambient along an element.
func ambients(e *network.Element) (cold, hot float64) {
	var zones []*harness.Zone
	switch {
	case e.Wire != nil:
		zones = e.Wire.Zones()
	case e.Device != nil && e.Device.At != nil && e.Device.At.Zone != nil:
		zones = []*harness.Zone{e.Device.At.Zone}
	}
	cold, hot = math.Inf(1), math.Inf(-1)
	for _, z := range zones {
		if z.Known {
			cold, hot = min(cold, z.LeastC), max(hot, z.MostC)
		}
	}
	if cold > hot {
		return roomC, roomC
	}
	return cold, hot
}

// ambient is an element's temperature in a position, its own heat left out.
func (s *Solver) ambient(i int, p *Position) float64 {
	switch {
	case p.AmbientC != nil:
		return *p.AmbientC
	case p.Corner == ColdFull:
		return s.coldC[i]
	}
	return s.hotC[i]
}

// set puts everything but the relays where the position has it.
func (s *Solver) set(p *Position) {
	for i := range s.Network.Elements {
		e, br := &s.Network.Elements[i], s.branches[i]
		if br < 0 {
			continue
		}
		switch e.Kind {
		case network.Wire:
			s.state.SetOhm(br, tables.CopperAt(e.Ohm, s.ambient(i, p)))
		case network.Contact:
			s.state.Switch(br, closed(e, p))
		case network.Load:
			s.setLoad(br, i, p)
		case network.Source:
			s.setSource(br, e.Source, p)
		}
	}
}

func (s *Solver) setLoad(br circuit.Branch, i int, p *Position) {
	l := s.Network.Elements[i].Load
	s.state.Switch(br, draws(l, p))
	switch {
	case l.Coil != nil && l.Ohm > 0:
		s.state.SetOhm(br, tables.CopperAt(l.Ohm, s.ambient(i, p)))
	case l.StandbyA > 0 && p.Key == "off":
		s.state.SetCurrent(br, circuit.Motor{Amps: l.StandbyA, AtVolts: l.AtV})
	case l.StandbyA > 0:
		s.restore(br, l)
	}
}

// restore undoes a load's standby.
func (s *Solver) restore(br circuit.Branch, l *network.LoadSpec) {
	switch {
	case l.Ohm > 0:
		s.state.SetOhm(br, l.Ohm)
	case l.Watts > 0 && l.Sort == "bulb":
		s.state.SetBulb(br, circuit.Bulb{Watts: l.Watts, AtVolts: l.AtV})
	case l.Watts > 0:
		s.state.SetPower(br, circuit.Power{Watts: l.Watts, LeastVolts: l.LeastV})
	case l.Amps > 0:
		s.state.SetCurrent(br, circuit.Motor{Amps: l.Amps, AtVolts: l.AtV, Exponent: l.Power})
	default:
		s.state.SetOhm(br, unknownOhm)
	}
}

// closed says where a contact stands that no relay works; a relay's begins at
// rest.
func closed(e *network.Element, p *Position) bool {
	switch e.Gate.By {
	case network.Hand:
		return p.Throws[e.Device] > 0 && (p.Throws[e.Device] == e.Gate.Throw)
	case network.Key:
		return contains(e.Gate.Key, p.Key)
	case network.Tap:
		return live(e.Gate.Live, p)
	}
	return e.Gate.Rest
}

// live: `on` does not mean start; `engine` means idling or running.
func live(when []string, p *Position) bool {
	for _, w := range when {
		switch {
		case w == "always", w == p.Key,
			w == "acc" && p.Key == "on",
			w == "engine" && (p.Engine == "idle" || p.Engine == "running"):
			return true
		}
	}
	return false
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func draws(l *network.LoadSpec, p *Position) bool {
	switch l.When {
	case network.KeyOff:
		return p.Key == "off"
	case network.KeyOn:
		return p.Key != "off"
	case network.EngineOn:
		return p.Engine == "idle" || p.Engine == "running"
	case network.Cranking:
		return p.Engine == "cranking"
	}
	return true
}

// crankedOhm is what is left of a battery's resistance where its voltage while
// cranking is declared as such.
const crankedOhm = 0.0001

func (s *Solver) setSource(br circuit.Branch, spec *network.SourceSpec, p *Position) {
	switch spec.Sort {
	case "battery":
		s.state.SetSource(br, batteryAt(spec, p))
	case "alternator":
		most := spec.OutputA
		if p.Engine == "idle" {
			most = spec.IdleA
		}
		s.state.Switch(br, p.Engine == "idle" || p.Engine == "running")
		s.state.SetSource(br, circuit.Source{Volts: spec.NominalV, Ohm: spec.Ohm, MostOut: most})
	}
}

func batteryAt(spec *network.SourceSpec, p *Position) circuit.Source {
	if p.Engine == "cranking" {
		return circuit.Source{Volts: spec.SagsV, Ohm: crankedOhm, MostOut: circuit.Unlimited, MostIn: spec.AcceptsA}
	}
	const ratedC = 26.7 // of the open-circuit table
	volts, _, ok := tables.OpenCircuitVolts(spec.Chemistry, 100*p.Charge, ratedC)
	if !ok {
		volts = 12
	}
	return circuit.Source{Volts: volts * spec.NominalV / 12, Ohm: spec.Ohm, MostOut: circuit.Unlimited, MostIn: spec.AcceptsA}
}
