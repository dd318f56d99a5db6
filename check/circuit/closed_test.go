package circuit_test

import (
	"math"
	"testing"

	"hame/check/circuit"
)

// stiff is a source that holds its volts to within a microhm.
func stiff(volts float64) circuit.Source {
	return circuit.Source{Volts: volts, MostOut: circuit.Unlimited, MostIn: circuit.Unlimited}
}

// battery is a source without limits behind a resistance.
func battery(volts, ohm float64) circuit.Source {
	return circuit.Source{Volts: volts, Ohm: ohm, MostOut: circuit.Unlimited, MostIn: circuit.Unlimited}
}

// solve solves a network as built and insists on a proven answer.
func solve(t testing.TB, b *circuit.Builder) *circuit.Point {
	t.Helper()
	return solveState(t, b.Compile(), nil)
}

func solveState(t testing.TB, n *circuit.Net, change func(*circuit.State)) *circuit.Point {
	t.Helper()
	s := n.State()
	if change != nil {
		change(s)
	}
	p, err := n.Solve(s)
	if err != nil {
		t.Fatalf("solve: %v", err)
	}
	if !(p.Residual() < 1e-9) {
		t.Fatalf("residual %g", p.Residual())
	}
	return p
}

func same(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// Ladder of n equal rungs closed by its characteristic resistance: every
// section then shows the same resistance to the one before it, and the volts
// fall by a fixed ratio. Ladder theory: electrical text books, from memory.
func TestLadderClosedByItsCharacteristicResistance(t *testing.T) {
	const series, shunt, sections = 0.3, 50.0, 40
	// z = series + shunt·z/(shunt+z)
	z := (series + math.Sqrt(series*series+4*series*shunt)) / 2
	b := circuit.NewBuilder()
	ground, first := b.Node(), b.Node()
	feed := b.Source(first, ground, stiff(12))
	nodes := []circuit.Node{first}
	for range sections {
		next := b.Node()
		b.Resistor(nodes[len(nodes)-1], next, series)
		b.Resistor(next, ground, shunt)
		nodes = append(nodes, next)
	}
	// The last section's shunt and the closing resistance together make the
	// parallel of the two, so close with z.
	b.Resistor(nodes[sections], ground, z)
	p := solve(t, b)
	seen := series + shunt*z/(shunt+z)
	same(t, "seen resistance", seen, z, 1e-12)
	amps := 12 / (z + circuit.LeastOhm)
	same(t, "feed", p.Current(feed), amps, 1e-9)
	ratio := (z - series) / z
	for i, n := range nodes {
		want := amps * z * math.Pow(ratio, float64(i))
		same(t, "rung volts", p.Volts(n), want, 1e-11)
	}
}

// Wheatstone bridge: no current in the detector when the arms are in
// proportion; out of proportion, Thévenin gives its current.
func TestWheatstoneBridge(t *testing.T) {
	for _, r4 := range []float64{300, 250} {
		const r1, r2, r3, detector = 100.0, 200.0, 150.0, 40.0
		b := circuit.NewBuilder()
		neg, pos, left, right := b.Node(), b.Node(), b.Node(), b.Node()
		b.Source(pos, neg, stiff(12))
		b.Resistor(pos, left, r1)
		b.Resistor(left, neg, r2)
		b.Resistor(pos, right, r3)
		b.Resistor(right, neg, r4)
		d := b.Resistor(left, right, detector)
		p := solve(t, b)
		open := 12 * (r2/(r1+r2) - r4/(r3+r4))
		within := r1*r2/(r1+r2) + r3*r4/(r3+r4)
		same(t, "detector", p.Current(d), open/(within+detector), 1e-9)
	}
}

// V = (E + √(E² − 4PR)) / 2, the upper root of P = V·(E − V)/R.
func TestConstantPowerTakesTheUpperRoot(t *testing.T) {
	for _, watts := range []float64{1, 27, 100, 300, 350, 359.9} {
		const e, r = 12.0, 0.1 // can deliver 360 W at most
		b := circuit.NewBuilder()
		neg, pos := b.Node(), b.Node()
		b.Source(pos, neg, battery(e, r))
		load := b.Power(pos, neg, watts, 4)
		p := solve(t, b)
		want := (e + math.Sqrt(e*e-4*watts*r)) / 2
		// Near 360 W the root itself is ill-conditioned: a relative error d in
		// the currents moves it by √d.
		tolerance := 1e-9 * e / math.Sqrt(1-watts/360)
		same(t, "volts", p.Volts(pos), want, tolerance)
		same(t, "watts", p.Current(load)*p.Drop(load), watts, 1e-7*watts)
		if len(p.Sagging()) != 0 {
			t.Errorf("%g W: sagging %v", watts, p.Sagging())
		}
	}
}

func TestPowerBeyondTheFeedSags(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	b.Source(pos, neg, battery(12, 0.1))
	load := b.Power(pos, neg, 400, 9)
	p := solve(t, b)
	if s := p.Sagging(); len(s) != 1 || s[0] != load {
		t.Fatalf("sagging = %v, want [%d]", s, load)
	}
	u := p.Volts(pos)
	x := u / 9
	same(t, "amps", p.Current(load), 400*(3*x*x-2*x*x*x)/u, 1e-7)
	same(t, "balance", (12-u)/0.1, p.Current(load), 1e-7)
}

// A diode that conducts drops its forward volts and its slope; one that blocks
// passes its leak.
func TestDiode(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos, mid := b.Node(), b.Node(), b.Node()
	b.Source(pos, neg, stiff(12))
	on := b.Diode(pos, mid, 0.7, 0.01)
	load := b.Resistor(mid, neg, 10)
	off := b.Diode(neg, mid, 0.7, 0.01) // across the load the wrong way: blocks
	p := solve(t, b)
	amps := (12 - 0.7) / (10 + 0.01 + circuit.LeastOhm)
	same(t, "forward", p.Current(on), amps, 2e-7)
	same(t, "load", p.Current(load), amps, 2e-7)
	same(t, "blocked", p.Current(off), -circuit.LeakSiemens*10*amps, 1e-12)
}

// A source at its limit gives that and no more, and the load's volts follow.
func TestSourceAtItsLimit(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	alt := b.Source(pos, neg, circuit.Source{Volts: 14.2, Ohm: 0.005, MostOut: 55})
	b.Resistor(pos, neg, 0.2) // would take 69 A
	p := solve(t, b)
	same(t, "amps", p.Current(alt), 55, 1e-6)
	same(t, "volts", p.Volts(pos), 11, 1e-6)
}

// An alternator feeds a load and a battery that takes no more than it accepts.
func TestBatteryTakesWhatItAccepts(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	alt := b.Source(pos, neg, circuit.Source{Volts: 14.2, Ohm: 0.005, MostOut: 55})
	bat := b.Source(pos, neg, circuit.Source{Volts: 12.6, Ohm: 0.009, MostOut: circuit.Unlimited, MostIn: 14})
	b.Current(pos, neg, 30, 12, 0)
	p := solve(t, b)
	same(t, "alternator", p.Current(alt), 44, 1e-6)
	same(t, "battery", p.Current(bat), -14, 1e-6)
	same(t, "volts", p.Volts(pos), 14.2-0.005*44, 1e-7)
}

// Beyond the alternator's output the battery makes up the rest.
func TestAlternatorAndBatteryShare(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	alt := b.Source(pos, neg, circuit.Source{Volts: 14.2, Ohm: 0.005, MostOut: 55})
	bat := b.Source(pos, neg, circuit.Source{Volts: 12.6, Ohm: 0.009, MostOut: circuit.Unlimited, MostIn: 14})
	b.Current(pos, neg, 80, 12, 0)
	p := solve(t, b)
	same(t, "alternator", p.Current(alt), 55, 1e-6)
	same(t, "battery", p.Current(bat), 25, 1e-6)
	same(t, "volts", p.Volts(pos), 12.6-0.009*25, 1e-7)
}

// Two batteries that oppose each other and a dead short: only their
// resistances limit the current.
func TestOpposedAndShorted(t *testing.T) {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	one := b.Source(pos, neg, battery(12.8, 0.004))
	two := b.Source(pos, neg, battery(-12.4, 0.006))
	p := solve(t, b)
	same(t, "opposed", p.Current(one), 25.2/0.01, 1e-8)
	same(t, "opposed", p.Current(two), -25.2/0.01, 1e-8)

	b = circuit.NewBuilder()
	neg, pos = b.Node(), b.Node()
	bat := b.Source(pos, neg, battery(12.6, 0.009))
	b.Power(pos, neg, 60, 9)
	b.Resistor(pos, neg, 0)
	p = solve(t, b)
	same(t, "short", p.Current(bat), 12.6/(0.009+circuit.LeastOhm), 1e-3)

	b = circuit.NewBuilder()
	neg, pos = b.Node(), b.Node()
	x := b.Source(pos, neg, stiff(14))
	b.Source(pos, neg, stiff(12))
	p = solve(t, b)
	same(t, "ideal against ideal", p.Current(x), 2/(2*circuit.LeastOhm), 1e-3)
}

// What the converter gives at its output it draws at its input, over the
// efficiency.
func TestConverter(t *testing.T) {
	b := circuit.NewBuilder()
	neg, bat, in, out, outNeg := b.Node(), b.Node(), b.Node(), b.Node(), b.Node()
	b.Source(bat, neg, battery(12.6, 0.009))
	b.Resistor(bat, in, 0.02)
	draw, give := b.Converter(in, neg, out, outNeg, circuit.Converter{
		Volts: 24, Ohm: 0.01, MostOut: 10, Efficiency: 0.9, LeastIn: 9,
	})
	b.Resistor(out, outNeg, 4) // outNeg is tied to nothing else
	p := solve(t, b)
	same(t, "given", p.Current(give), 24/4.01, 1e-8)
	given := p.Current(give) * p.Drop(give)
	leak := circuit.LeakSiemens * p.Drop(draw) * p.Drop(draw)
	same(t, "drawn", p.Current(draw)*p.Drop(draw), given/0.9+leak, 1e-9)
	e, r := 12.6, 0.029
	same(t, "input volts", p.Volts(in), (e+math.Sqrt(e*e-4*given/0.9*r))/2, 1e-8)
	if p.Iterations() > 14 {
		t.Errorf("%d iterations", p.Iterations())
	}
}
