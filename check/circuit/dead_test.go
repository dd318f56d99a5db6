package circuit_test

import (
	"math"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check/circuit"
)

// What no source reaches reads 0 V and carries nothing.
func TestDeadPartsReadNothing(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos, fed, far, lone := b.Node(), b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, battery(12.6, 0.01))
	sw := b.Contact(pos, fed, 0.002)
	lamp := b.Power(fed, far, 27, 9)
	n := b.Compile()
	p := solveState(t, n, nil)
	for _, v := range []circuit.Node{fed, far, lone} {
		if p.Volts(v) != 0 || p.Alive(v) {
			t.Errorf("node %d: %g V, alive %v", v, p.Volts(v), p.Alive(v))
		}
	}
	if p.Current(lamp) != 0 || len(p.Sagging()) != 0 || !p.Alive(pos) {
		t.Errorf("dead lamp: %g A, sagging %v", p.Current(lamp), p.Sagging())
	}
	// Closed, the lamp still has no return: it floats at the feed's volts.
	p = solveState(t, n, func(s *circuit.State) { s.Switch(sw, true) })
	same(t, "floating", p.Volts(far), 12.6, 1e-9)
	same(t, "floating", p.Current(lamp), 0, 1e-12)
	if len(p.Sagging()) != 0 {
		t.Errorf("a lamp without return sags: %v", p.Sagging())
	}
}

func TestEmptyNetworks(t *testing.T) {
	solve(t, circuit.NewBuilder())
	b := circuit.NewBuilder()
	one := b.Node()
	loop := b.Source(one, one, battery(12, 1)) // shorted on itself
	p := solve(t, b)
	same(t, "loop", p.Current(loop), 12, 1e-12)
}

// Grounds that nothing joins are each their own 0 V; a source that floats
// takes its own negative; a named reference wins.
func TestReferences(t *testing.T) {
	b := circuit.NewBuilder()
	neg1, pos1, neg2, pos2, mid := b.Node(), b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(pos1, neg1, battery(12, 0.01))
	b.Resistor(pos1, neg1, 10)
	b.Source(pos2, mid, battery(12, 0.01))
	b.Source(mid, neg2, battery(12, 0.01))
	p := solve(t, b)
	same(t, "first", p.Volts(neg1), 0, 0)
	same(t, "second", p.Volts(mid), 0, 0)
	same(t, "second", p.Volts(neg2), -12, 1e-12)
	b.Reference(neg2)
	p = solve(t, b)
	same(t, "named", p.Volts(pos2), 24, 1e-12)
	b.Resistor(neg1, neg2, 1) // ties the two parts at one point: no current
	p = solve(t, b)
	same(t, "tied", p.Volts(pos1), 12-12*0.01/10.01, 1e-9)
}

// A rail behind a converter that is not fed is dead.
func TestRailWithoutFeedIsDead(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos, in, out := b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, battery(12.6, 0.01))
	sw := b.Contact(pos, in, 0.002)
	_, give := b.Converter(in, neg, out, neg, circuit.Converter{
		Volts: 5, Ohm: 0.02, MostOut: 3, Efficiency: 0.85, LeastIn: 8,
	})
	b.Resistor(out, neg, 2.5)
	n := b.Compile()
	p := solveState(t, n, nil)
	same(t, "dead rail", p.Volts(out), 0, 1e-6)
	p = solveState(t, n, func(s *circuit.State) { s.Switch(sw, true) })
	same(t, "live rail", p.Current(give), 5/2.52, 1e-8)
	// Beyond its limit the rail's volts fall and its amperes stay.
	p = solveState(t, n, func(s *circuit.State) {
		s.Switch(sw, true)
		s.SetOhm(4, 1)
	})
	same(t, "limited rail", p.Volts(out), 3, 1e-6)
}

// Two regulated lamps in series share the volts like a pencil on its tip: the
// stable answer is one at full power and one that sags.
func TestRegulatedLampsInSeriesFallToOneSide(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos, mid := b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, battery(24, 0.01))
	b.Power(pos, mid, 20, 6)
	b.Power(mid, neg, 20, 6)
	p := solve(t, b)
	if len(p.Sagging()) != 1 {
		t.Errorf("sagging %v at %g V, want one of two", p.Sagging(), p.Volts(mid))
	}
}

// Overrides hold for their state alone, and Reset takes them back.
func TestStatesAreIndependent(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	bat := b.Source(pos, neg, stiff(12))
	r := b.Resistor(pos, neg, 10)
	n := b.Compile()
	s := n.State()
	s.SetOhm(r, 5)
	s.SetSource(bat, stiff(10))
	c := s.Clone()
	c.Switch(bat, false)
	amps := func(s *circuit.State) float64 {
		p, err := n.Solve(s)
		if err != nil {
			t.Fatal(err)
		}
		return p.Current(r)
	}
	same(t, "overridden", amps(s), 2, 1e-5)
	same(t, "switched off", amps(c), 0, 0)
	s.Reset()
	same(t, "reset", amps(s), 1.2, 1e-5)
	same(t, "fresh", amps(n.State()), 1.2, 1e-5)
}

// Values that are no figures count as the nearest bound; nothing panics.
func TestValuesThatAreNoFigures(t *testing.T) {
	inf := circuit.Unlimited
	nan := inf - inf
	for _, x := range []float64{nan, inf, -inf, -1, 0, 1e300, -1e300, 5e-324} {
		b := circuit.NewBuilder()
		neg, pos, mid := b.Node(), b.Node(), b.Node()
		b.Source(pos, neg, battery(12, 0.01))
		b.Source(pos, neg, circuit.Source{Volts: 12, Ohm: x, MostOut: x, MostIn: x})
		b.Resistor(pos, mid, x)
		b.Power(mid, neg, 5, x)
		b.Current(mid, neg, 1, x, x)
		b.Bulb(mid, neg, 5, 12)
		b.Diode(mid, neg, 20, x)
		b.Converter(pos, neg, mid, neg, circuit.Converter{Volts: 5, Ohm: x, MostOut: 1, Efficiency: x, LeastIn: x})
		p := solve(t, b)
		if u := p.Volts(pos); math.IsNaN(u) || math.IsInf(u, 0) {
			t.Errorf("with %g: %g V", x, u)
		}
	}
}

// One net, many goroutines, the same bits.
func TestSameBitsFromManyGoroutines(t *testing.T) {
	m := newMachine(seeded(7), 400)
	n := m.b.Compile()
	answers := make([][]float64, 8)
	var wait sync.WaitGroup
	for i := range answers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			s := n.State()
			m.all(s)
			for range 1 + i {
				p, err := n.Solve(s)
				if err != nil {
					t.Error(err)
					return
				}
				answers[i] = answers[i][:0]
				for b := range n.Branches() {
					answers[i] = append(answers[i], p.Current(circuit.Branch(b)))
				}
			}
		}()
	}
	wait.Wait()
	for _, a := range answers[1:] {
		if d := cmp.Diff(answers[0], a); d != "" {
			t.Fatal(d)
		}
	}
}
