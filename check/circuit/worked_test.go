package circuit_test

import (
	"testing"

	"hame/check/circuit"
)

// Relay coil of 75 ohm at 12 V through a control loop of 2 ohm: 11.69 V
// (arithmetic on Ohm's law, coil figure from relay data sheets).
func TestCoilBehindItsControlLoop(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos, coil := b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, stiff(12))
	b.Resistor(pos, coil, 2)
	c := b.Resistor(coil, neg, 75)
	p := solve(t, b)
	same(t, "coil", p.Drop(c), 11.69, 0.005)
}

// One headlamp fuse blown, ground-side switching: the current runs back through
// 60 W, 60 W and 55 W filaments of 12 V in series. With constant resistances
// 1.618 A, and 4.24 V across the low beam (case from a vehicle service text;
// numbers by arithmetic).
func TestBlownFuseFeedsThreeLampsInSeries(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos, one, two := b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, stiff(12))
	first := b.Resistor(pos, one, 12*12/60.0)
	b.Resistor(one, two, 12*12/60.0)
	low := b.Resistor(two, neg, 12*12/55.0)
	p := solve(t, b)
	same(t, "amps", p.Current(first), 1.618, 0.0005)
	same(t, "low beam", p.Drop(low), 4.24, 0.005)

	// Real filaments are colder in series, so they take more than that.
	b = circuit.NewBuilder()
	neg, pos, one, two = b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, stiff(12))
	lamp := b.Bulb(pos, one, 60, 12)
	b.Bulb(one, two, 60, 12)
	b.Bulb(two, neg, 55, 12)
	p = solve(t, b)
	if p.Current(lamp) <= 1.618 {
		t.Errorf("cold filaments take %g A, want more than 1.618", p.Current(lamp))
	}
}

// 4 A over 2 × 100 ft of 4.99 ohm per 1000 ft at 24 V loses 3.992 V, 16.63 %
// (electrician training text using NEC chapter 9 table 8; seen).
func TestDropOfATwoWireCircuit(t *testing.T) {
	const oneWay = 4.99 * 100 / 1000
	b := circuit.NewBuilder()
	neg, pos, far, back := b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, stiff(24))
	out := b.Resistor(pos, far, oneWay)
	b.Current(far, back, 4, 12, 0)
	home := b.Resistor(back, neg, oneWay)
	p := solve(t, b)
	drop := p.Drop(out) + p.Drop(home)
	same(t, "drop", drop, 3.992, 1e-9)
	same(t, "share", 100*drop/24, 16.63, 0.005)
}

// 20 A over 107 ft of 0.00044 ohm per foot loses 0.942 V (AC 43.13-1B table
// 11-7, row 1; seen), and over 100 ft of 0.00306 loses 6.12 V (row 4; seen).
func TestDropsOfTheAircraftTable(t *testing.T) {
	for _, c := range []struct{ ohmPerFt, lengthFt, volts float64 }{
		{0.00044, 107, 0.942},
		{0.00306, 100, 6.12},
	} {
		b := circuit.NewBuilder()
		neg, pos, far := b.Node(), b.Node(), b.Node()
		b.Source(pos, neg, stiff(28))
		wire := b.Resistor(pos, far, c.ohmPerFt*c.lengthFt)
		b.Current(far, neg, 20, 28, 0)
		p := solve(t, b)
		same(t, "drop", p.Drop(wire), c.volts, 0.0005)
	}
}

// A 600 A (CCA) battery at −18 °C: 12.6 V behind 9 mohm gives 7.2 V at its
// cranking current (SAE J537 class definition, seen; resistance derived) and
// 1400 A into a short.
func TestBatteryAtItsCrankingCurrent(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	bat := b.Source(pos, neg, battery(12.6, 0.009))
	b.Current(pos, neg, 600, 12, 0)
	short := b.Contact(pos, neg, circuit.LeastOhm)
	n := b.Compile()
	p := solveState(t, n, nil)
	same(t, "cranking volts", p.Volts(pos), 7.2, 1e-9)
	p = solveState(t, n, func(s *circuit.State) { s.Switch(short, true) })
	same(t, "short", p.Current(bat), 1400, 0.2)
}

// Fixed loads of a light single-engine aircraft's load table: 8.14 A in all
// (handbook figure 16-9; seen).
func TestLoadTableSum(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	gen := b.Source(pos, neg, stiff(14))
	for _, amps := range []float64{3.3, 3.0, 0.4, 0.6, 0.3, 0.2, 0.17, 0.17} {
		b.Current(pos, neg, amps, 14, 0)
	}
	p := solve(t, b)
	same(t, "sum", p.Current(gen), 8.14, 1e-9)
}

// A fan's or pump's current goes as volts^1.5 (power as speed cubed; affinity
// laws, from memory), a filament's as volts^0.55, cold at a twelfth of its hot
// resistance (common practice).
func TestLoadsAwayFromTheirRatedVolts(t *testing.T) {
	at := func(volts float64) (fan, lamp float64) {
		b := circuit.NewBuilder()
		neg, pos := b.Node(), b.Node()
		b.Source(pos, neg, stiff(volts))
		f := b.Current(pos, neg, 8, 12, 1.5)
		l := b.Bulb(pos, neg, 60, 12)
		p := solve(t, b)
		return p.Current(f), p.Current(l)
	}
	fan, lamp := at(12)
	same(t, "fan at 12 V", fan, 8, 1e-4)
	same(t, "lamp at 12 V", lamp, 5, 1e-4)
	fan, lamp = at(6)
	same(t, "fan at 6 V", fan, 8*0.353553, 1e-4)
	same(t, "lamp at 6 V", lamp, 5*0.683020, 1e-4)
	_, lamp = at(0.001)
	same(t, "cold lamp", 0.001/lamp, 2.4/12, 0.01)
}
