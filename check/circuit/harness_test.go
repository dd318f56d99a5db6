package circuit_test

import (
	"math/rand/v2"

	"hame/check/circuit"
)

// machine is a random network of the shape that vehicles have: a battery and
// an alternator on a post, feeds that branch out over fuses and switches to
// loads, and returns that gather on grounds.
type machine struct {
	b               *circuit.Builder
	r               *rand.Rand
	neg             circuit.Node
	battery         circuit.Branch
	loads, contacts []circuit.Branch
	sources         map[circuit.Branch]bool
}

func newMachine(r *rand.Rand, branches int) *machine {
	m := &machine{b: circuit.NewBuilder(), r: r, sources: map[circuit.Branch]bool{}}
	neg, pos := m.b.Node(), m.b.Node()
	m.neg = neg
	share := 100 / float64(100+branches) // many loads are small ones
	m.battery = m.b.Source(pos, neg, circuit.Source{
		Volts: 12.7, Ohm: 0.006, MostOut: circuit.Unlimited, MostIn: 20,
	})
	alternator := m.b.Source(pos, neg, circuit.Source{Volts: 14.2, Ohm: 0.004, MostOut: 90})
	m.sources[m.battery], m.sources[alternator] = true, true
	ground := m.b.Node()
	m.b.Resistor(neg, ground, 0.0003)
	feeds := []circuit.Node{pos}
	for used := 4; used < branches; used += 5 {
		m.feed(&feeds, ground, share)
	}
	return m
}

// feed adds a wire and a fuse, and hangs a switched load on it.
func (m *machine) feed(feeds *[]circuit.Node, ground circuit.Node, share float64) {
	b, r := m.b, m.r
	from := (*feeds)[len(*feeds)-1-r.IntN(min(len(*feeds), 40))]
	if len(*feeds) > 30 {
		from = (*feeds)[r.IntN(len(*feeds)/3)]
	}
	fused, switched, back := b.Node(), b.Node(), b.Node()
	b.Resistor(from, fused, 0.0005+0.005*r.Float64())
	*feeds = append(*feeds, fused)
	c := b.Contact(fused, switched, 0.002)
	m.contacts = append(m.contacts, c)
	b.Resistor(back, ground, 0.001+0.02*r.Float64())
	if r.IntN(10) == 0 {
		m.loads = append(m.loads, m.rail(switched, back, share))
		return
	}
	m.loads = append(m.loads, m.load(switched, back, share))
	if r.IntN(8) == 0 { // suppression across the load
		b.Diode(back, switched, 0.7, 0.02)
	}
}

func (m *machine) load(pos, neg circuit.Node, share float64) circuit.Branch {
	size := share * (0.2 + m.r.Float64())
	switch m.r.IntN(6) {
	case 0:
		return m.b.Power(pos, neg, 30*size, 9)
	case 1:
		return m.b.Current(pos, neg, 4*size, 12, 0)
	case 2:
		return m.b.Current(pos, neg, 4*size, 12, 1.5)
	case 3:
		return m.b.Bulb(pos, neg, 21*size, 12)
	case 4:
		mid := m.b.Node()
		m.b.Diode(pos, mid, 0.7, 0.01)
		return m.b.Power(mid, neg, 10*size, 8)
	}
	return m.b.Resistor(pos, neg, 5/size)
}

// rail adds a converter with a load of its own behind it.
func (m *machine) rail(pos, neg circuit.Node, share float64) circuit.Branch {
	b := m.b
	out, far := b.Node(), b.Node()
	_, give := b.Converter(pos, neg, out, neg, circuit.Converter{
		Volts: 24, Ohm: 0.02, MostOut: 20 * share, Efficiency: 0.9, LeastIn: 9,
	})
	m.sources[give] = true
	b.Resistor(out, far, 0.01+0.02*m.r.Float64())
	return b.Power(far, neg, 100*share*m.r.Float64(), 18)
}

// all closes every contact.
func (m *machine) all(s *circuit.State) {
	for _, c := range m.contacts {
		s.Switch(c, true)
	}
}

// gives tells whether the current of b counts positive when it gives.
func (m *machine) gives(b circuit.Branch) bool { return m.sources[b] }
