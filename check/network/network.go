// Package network makes the electrical graph of a bound harness: a node for
// every terminal, an element for whatever joins two nodes. What can be on and
// what flows is worked out from it elsewhere.
package network

import (
	"hame/lang/harness"
	"hame/lang/kinds"
)

// Kind says what an element is to the network.
type Kind uint8

// The kinds of element.
const (
	Wire    Kind = iota // a wire with its two ends
	Joint               // a bond, a mated contact of a connector
	Fuse                // a protective device: fuse, breaker, link, a panel's way
	Contact             // of a switch, key, relay, or a tap's own switch
	Diode
	Load   // a load, a relay's coil, what the machine draws by itself
	Source // a battery, alternator, or a converter's output
)

// Element joins two nodes. Of a load, a source and a diode A is the positive.
type Element struct {
	Kind     Kind
	A, B     int
	Ohm      float64 // cold; of wires, joints, fuses and contacts
	Name     string  // w7, k1, aux.2, lamp.low
	Device   *harness.Device
	Wire     *harness.Wire
	Terminal *harness.Terminal // A's terminal, where it has one
	Fuse     *Device           // of a Fuse
	Gate     *Gate             // of a Contact; one that says nothing of all others
	Load     *LoadSpec         // of a Load
	Source   *SourceSpec       // of a Source
}

// Gate says what closes a contact.
type Gate struct {
	By    GateKind
	Throw int      // of a Hand contact: the throw that it belongs to
	Key   []string // of a Key contact: the positions that close it
	Live  []string // of a Tap: when its circuit is live
	Coil  int      // of a Relay contact: the index of its coil's element
	Rest  bool     // of a Relay contact: closed while the relay is out
}

// GateKind says who works a contact.
type GateKind uint8

// Who works a contact.
const (
	Hand GateKind = iota
	Key
	Relay
	Tap
)

// Network is the graph of one harness.
type Network struct {
	Harness  *harness.Harness
	Nodes    int
	Elements []Element
	// At lists, for every node, the elements that touch it.
	At    [][]int
	wires int                     // the first wire's element; the others follow in order
	lows  map[*harness.Device]int // of taps
	sides
}

// Device is a protective device: a fuse, breaker or link, a panel's way, or
// what protects a tap's circuit.
type Device struct {
	Name    string
	Of      *harness.Device
	Way     *harness.Terminal // of a panel
	Sort    string            // fuse, breaker, link
	Family  string            // blade …; the breaker's reset
	RatingA float64           // 0 where it is not known
	LinkMM2 float64           // of a link
	AtPlace *harness.Place
}

// OfWire is a wire's element. They follow each other in the order of the wires.
func (n *Network) OfWire(w *harness.Wire) int { return n.wires + w.Index }

// Low is the node of the negative that a tap's current returns to.
func (n *Network) Low(tap *harness.Device) int { return n.lows[tap] }

// node is a terminal's node.
func node(t *harness.Terminal) int { return t.Index }

// Build makes the graph. It never fails: what is not declared is left out.
func Build(h *harness.Harness) *Network {
	b := &builder{n: &Network{Harness: h, lows: map[*harness.Device]int{}}, systemV: h.SystemV}
	b.chassis = map[string][]*harness.Device{}
	b.n.Elements = make([]Element, 0, about(h))
	for _, d := range h.Devices {
		b.n.Nodes += len(d.Terminals)
		if d.Is(kinds.Ground, "chassis") {
			b.chassis[d.Name] = append(b.chassis[d.Name], d)
		}
	}
	for _, d := range h.Devices {
		b.device(d)
	}
	b.n.wires = len(b.n.Elements)
	for _, w := range h.Wires {
		b.wire(w)
	}
	b.taps()
	b.index()
	b.n.sides = findSides(b.n)
	b.rails()
	return b.n
}

// about is how many elements there will be: a wire is one, and a device mostly one
// fewer than it has terminals.
func about(h *harness.Harness) int {
	count := len(h.Wires)
	for _, d := range h.Devices {
		count += max(1, len(d.Terminals)-1)
	}
	return count
}

type builder struct {
	n    *Network
	wait []*harness.Device // taps: they hang on supplies that come later
	// chassis are those of a name.
	chassis map[string][]*harness.Device
	// systemV is the volts that a draw which names none is at.
	systemV float64
}

// noGate is that of all elements but contacts: most are none, and a gate is as big
// as the rest of an element.
var noGate Gate

func (b *builder) add(e Element) int {
	if e.Gate == nil {
		e.Gate = &noGate
	}
	b.n.Elements = append(b.n.Elements, e)
	return len(b.n.Elements) - 1
}

func (b *builder) node() int {
	b.n.Nodes++
	return b.n.Nodes - 1
}

// between adds an element between two terminals of a device, by name.
func (b *builder) between(d *harness.Device, from, to string, e Element) int {
	a, c := d.Terminal(from), d.Terminal(to)
	if a == nil || c == nil {
		return -1
	}
	e.A, e.B, e.Device, e.Terminal = node(a), node(c), d, a
	if e.Name == "" {
		e.Name = d.Name
	}
	return b.add(e)
}

func (b *builder) index() {
	count := make([]int, b.n.Nodes)
	for i := range b.n.Elements {
		e := &b.n.Elements[i]
		count[e.A]++
		count[e.B]++
	}
	b.n.At = make([][]int, b.n.Nodes)
	all := make([]int, 2*len(b.n.Elements)) // one piece of memory for the lists of all nodes
	for v, n := range count {
		b.n.At[v], all = all[:0:n], all[n:]
	}
	for i := range b.n.Elements {
		e := &b.n.Elements[i]
		b.n.At[e.A] = append(b.n.At[e.A], i)
		if e.B != e.A {
			b.n.At[e.B] = append(b.n.At[e.B], i)
		}
	}
}

// device adds what a device is made of.
func (b *builder) device(d *harness.Device) {
	switch d.Kind.Family {
	case kinds.Supply:
		b.supply(d)
	case kinds.Protection:
		b.protection(d)
	case kinds.Switch:
		b.switching(d)
	case kinds.Load:
		b.load(d)
	case kinds.Join:
		b.join(d)
	case kinds.Ground:
		b.ground(d)
	}
}
