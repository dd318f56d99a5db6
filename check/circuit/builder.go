package circuit

import "slices"

// Node is a point of the network; nodes are numbered from 0 without gaps.
type Node int

// Branch joins two nodes; branches are numbered from 0 without gaps, in the
// order in which they were added.
type Branch int

// Builder collects a network. The zero value is not ready: use [NewBuilder].
// Node arguments must come from this builder's Node; like a slice index, any
// other value panics.
type Builder struct {
	nodes      int
	ends       [][2]Node
	plan       plan
	converters []ports
	references []Node
}

// ports are the two branches of one converter.
type ports struct {
	in, out Branch
}

// NewBuilder starts an empty network.
func NewBuilder() *Builder { return &Builder{} }

// Grow makes room for so many more branches at once.
func (b *Builder) Grow(branches int) {
	b.ends = slices.Grow(b.ends, branches)
	b.plan.on = slices.Grow(b.plan.on, branches)
	b.plan.siemens = slices.Grow(b.plan.siemens, branches)
	b.plan.laws = slices.Grow(b.plan.laws, branches)
}

// Node adds a node.
func (b *Builder) Node() Node {
	b.nodes++
	return Node(b.nodes - 1)
}

// Reference prefers n as the 0 V of whatever it is joined to. Of several in one
// connected part the first that was named counts: the others stay ordinary
// nodes, so grounds that differ by a volt show it. A part with no reference
// takes the negative of its first source.
func (b *Builder) Reference(n Node) {
	_ = b.checked(n)
	b.references = append(b.references, n)
}

// Resistor adds a resistance of ohm: a wire, fuse, joint, coil or heater.
func (b *Builder) Resistor(a, c Node, ohm float64) Branch {
	return b.add(a, c, true, siemens(ohm), nil)
}

// Contact adds a resistance of ohm that is open unless a [State] closes it.
func (b *Builder) Contact(a, c Node, ohm float64) Branch {
	return b.add(a, c, false, siemens(ohm), nil)
}

// Source adds a voltage behind a resistance. Its current counts positive when
// it gives.
func (b *Builder) Source(pos, neg Node, s Source) Branch {
	return b.add(pos, neg, true, 0, s.curve())
}

// Power adds a load that draws watts whatever its volts, down to leastVolts,
// below which its power falls to nothing; see [Power].
func (b *Builder) Power(pos, neg Node, watts, leastVolts float64) Branch {
	return b.add(pos, neg, true, 0, Power{Watts: watts, LeastVolts: leastVolts}.curve())
}

// Current adds a load that draws amps × (volts ÷ atVolts)^exponent; see
// [Motor].
func (b *Builder) Current(pos, neg Node, amps, atVolts, exponent float64) Branch {
	return b.add(pos, neg, true, 0, Motor{Amps: amps, AtVolts: atVolts, Exponent: exponent}.curve())
}

// Bulb adds a filament lamp of watts at atVolts; see [Bulb].
func (b *Builder) Bulb(pos, neg Node, watts, atVolts float64) Branch {
	return b.add(pos, neg, true, 0, Bulb{Watts: watts, AtVolts: atVolts}.curve())
}

// Diode adds a one-way branch that conducts through ohm above forwardVolts.
func (b *Builder) Diode(anode, cathode Node, forwardVolts, ohm float64) Branch {
	return b.add(anode, cathode, true, 0, Diode{ForwardVolts: forwardVolts, Ohm: ohm}.curve())
}

// Converter adds a load at in and a source at out that share their power. The
// current of out counts positive when it gives. Switching either branch off
// stops both. The two sides may share their negative or be isolated.
func (b *Builder) Converter(inPos, inNeg, outPos, outNeg Node, c Converter) (in, out Branch) {
	port := c.port()
	in = b.add(inPos, inNeg, true, 0, inPort{port})
	out = b.add(outPos, outNeg, true, 0, outPort{})
	b.converters = append(b.converters, ports{in, out})
	return in, out
}

func (b *Builder) add(a, c Node, on bool, g float64, l law) Branch {
	b.ends = append(b.ends, [2]Node{b.checked(a), b.checked(c)})
	b.plan.on = append(b.plan.on, on)
	b.plan.siemens = append(b.plan.siemens, g)
	b.plan.laws = append(b.plan.laws, l)
	return Branch(len(b.ends) - 1)
}

func (b *Builder) checked(n Node) Node {
	if n < 0 || int(n) >= b.nodes {
		panic("circuit: node of another builder")
	}
	return n
}
