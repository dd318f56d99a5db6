package states

import (
	"hame/check/circuit"
	"hame/check/network"
)

// Solver solves one network in any position. It is not for several goroutines
// at once; Clone it.
type Solver struct {
	Network  *network.Network
	net      *circuit.Net
	digests  []digest         // by element
	branches []circuit.Branch // by element; -1 where the element has none
	element  []int            // by branch
	inOrder  bool             // every element is the branch of its number
	coils    []int            // elements that are relays' coils
	relays   []int            // elements that are relays' contacts
	sources  []int            // elements
	loads    []int
	specs    []*network.LoadSpec // of loads
	ends     []int               // of both, in order
	contacts []int
	wires    []int32     // these, gates and fickle loads are what a position sets; see set
	gates    []int       // contacts that no coil works
	fickle   []int       // loads
	warmth   warmth      // as it was set last
	latches  []int       // coils that their own contact may feed
	outputs  map[int]int // of the inputs of converters: their outputs
	sneaks   []bool      // by element: see sneaks
	state    *circuit.State
	open     []int     // elements that are open whatever the position; see SolveWithout
	coldC    []float64 // by element: the least ambient along it
	hotC     []float64 // and the greatest
	// Stop, where it is set, is asked before every position, by several
	// goroutines: where it says so nothing more is solved, and what Find
	// answers is worth nothing.
	Stop func() bool
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
		Network: n, digests: digests(n), branches: make([]circuit.Branch, len(n.Elements)),
		coldC: make([]float64, len(n.Elements)), hotC: make([]float64, len(n.Elements)),
	}
	b := circuit.NewBuilder()
	b.Grow(len(n.Elements))
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
	s.latches = latches(n, s.digests, s.relays)
	s.sneaks = sneaks(n, s.digests)
	return s
}

// list notes what is asked for in every position.
func (s *Solver) list() {
	s.element = make([]int, s.net.Branches())
	s.inOrder = len(s.branches) == len(s.element)
	s.outputs, s.wires = map[int]int{}, make([]int32, 0, len(s.Network.Harness.Wires))
	for i, br := range s.branches {
		if br >= 0 {
			s.element[br] = i
		}
		s.inOrder = s.inOrder && int(br) == i
		s.sort(i)
	}
}

// sort lists an element by what it is.
func (s *Solver) sort(i int) {
	switch e := &s.Network.Elements[i]; e.Kind {
	case network.Wire:
		s.wires = append(s.wires, int32(i))
	case network.Source:
		s.sources, s.ends = append(s.sources, i), append(s.ends, i)
		if e.Source.Sort == "converter" && e.Source.Input >= 0 {
			s.outputs[e.Source.Input] = i
		}
	case network.Load:
		s.loads, s.specs, s.ends = append(s.loads, i), append(s.specs, e.Load), append(s.ends, i)
		if e.Load.Coil != nil {
			s.coils = append(s.coils, i)
		}
		if s.branches[i] >= 0 && fickle(e.Load) {
			s.fickle = append(s.fickle, i)
		}
	case network.Contact:
		s.contacts = append(s.contacts, i)
		if e.Gate.By == network.Relay && e.Gate.Coil >= 0 {
			s.relays = append(s.relays, i)
		} else {
			s.gates = append(s.gates, i)
		}
	}
}

// Clone makes a solver for another goroutine.
func (s *Solver) Clone() *Solver {
	c := *s
	c.state, c.warmth = s.net.State(), warmth{}
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
	if cold, hot, known := e.Ambients(); known {
		return cold, hot
	}
	return roomC, roomC
}
