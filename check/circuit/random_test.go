package circuit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"hame/check/circuit"
)

// linear is a random network of resistances and Thévenin sources, kept in a
// form that a dense solver can take too.
type linear struct {
	nodes   int
	ends    [][2]int
	ohm     []float64
	volts   []float64 // NaN for a resistance
	b       *circuit.Builder
	net     *circuit.Net
	renamed []circuit.Node // node of the net for each of nodes
}

// randomLinear joins all nodes by a random tree and adds chords and sources.
// decades is how far the resistances lie apart.
func randomLinear(r *rand.Rand, nodes int, decades float64) *linear {
	l := &linear{nodes: nodes}
	ohm := func() float64 { return math.Pow(10, (r.Float64()-0.5)*decades) }
	add := func(a, c int, volts float64) {
		l.ends = append(l.ends, [2]int{a, c})
		l.ohm = append(l.ohm, ohm())
		l.volts = append(l.volts, volts)
	}
	for v := 1; v < nodes; v++ {
		add(v, r.IntN(v), math.NaN())
	}
	for range r.IntN(2 * nodes) {
		add(r.IntN(nodes), r.IntN(nodes), math.NaN())
	}
	for range 1 + r.IntN(4) {
		add(1+r.IntN(nodes-1), 0, 1+50*r.Float64())
	}
	l.build(r.Perm(nodes))
	return l
}

// build makes the net with its nodes numbered in another order.
func (l *linear) build(order []int) {
	l.b = circuit.NewBuilder()
	l.renamed = make([]circuit.Node, l.nodes)
	for _, v := range order {
		l.renamed[v] = l.b.Node()
	}
	l.b.Reference(l.renamed[0])
	for i, e := range l.ends {
		a, c := l.renamed[e[0]], l.renamed[e[1]]
		if math.IsNaN(l.volts[i]) {
			l.b.Resistor(a, c, l.ohm[i])
		} else {
			l.b.Source(a, c, battery(l.volts[i], l.ohm[i]))
		}
	}
	l.net = l.b.Compile()
}

// dense solves the node equations by gonum's dense LU, node 0 being 0 V.
func (l *linear) dense() ([]float64, error) {
	n := l.nodes - 1
	a, rhs := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	add := func(i, j int, g float64) {
		if i > 0 && j > 0 {
			a.Set(i-1, j-1, a.At(i-1, j-1)+g)
		}
	}
	for k, e := range l.ends {
		if e[0] == e[1] {
			continue
		}
		g := 1 / l.ohm[k]
		add(e[0], e[0], g)
		add(e[1], e[1], g)
		add(e[0], e[1], -g)
		add(e[1], e[0], -g)
		if !math.IsNaN(l.volts[k]) && e[0] > 0 {
			rhs.SetVec(e[0]-1, rhs.AtVec(e[0]-1)+g*l.volts[k])
		}
	}
	var lu mat.LU
	lu.Factorize(a)
	var x mat.VecDense
	if err := lu.SolveVecTo(&x, false, rhs); err != nil {
		return nil, err
	}
	return append([]float64{0}, x.RawVector().Data...), nil
}

// Against an independent library: gonum's dense LU with partial pivoting.
func TestRandomLinearAgainstDenseLU(t *testing.T) {
	for seed := range uint64(4000) {
		r := rand.New(rand.NewPCG(seed, 1))
		l := randomLinear(r, 2+r.IntN(40), 4)
		want, err := l.dense()
		if err != nil {
			t.Fatalf("seed %d: dense: %v", seed, err)
		}
		p := solveState(t, l.net, nil)
		for v, volts := range want {
			if got := p.Volts(l.renamed[v]); math.Abs(got-volts) > 1e-9*(1+math.Abs(volts)) {
				t.Fatalf("seed %d node %d: %.15g, dense %.15g", seed, v, got, volts)
			}
		}
		if p.Iterations() > 3 {
			t.Errorf("seed %d: %d iterations on a linear network", seed, p.Iterations())
		}
	}
}

// Over eleven decades a dense LU in float64 knows too few digits to compare
// with, so the currents themselves are held against Kirchhoff and Ohm.
func TestStiffLinearBalances(t *testing.T) {
	for seed := range uint64(1000) {
		r := rand.New(rand.NewPCG(seed, 2))
		l := randomLinear(r, 2+r.IntN(60), 11)
		p := solveState(t, l.net, nil)
		l.balance(t, p)
	}
}

// balance sums the reported currents at each node by itself.
func (l *linear) balance(t *testing.T, p *circuit.Point) {
	t.Helper()
	sum, size := make([]float64, l.nodes), make([]float64, l.nodes)
	largest := 0.0
	for i, e := range l.ends {
		amps := p.Current(circuit.Branch(i))
		ohmic := amps * l.ohm[i]
		if !math.IsNaN(l.volts[i]) {
			amps = -amps
			ohmic += p.Drop(circuit.Branch(i)) - l.volts[i]
		} else {
			ohmic -= p.Drop(circuit.Branch(i))
		}
		if math.Abs(ohmic) > 1e-12 {
			t.Errorf("branch %d breaks Ohm's law by %g V", i, ohmic)
		}
		sum[e[0]] += amps
		sum[e[1]] -= amps
		size[e[0]] += math.Abs(amps)
		size[e[1]] += math.Abs(amps)
		largest = math.Max(largest, math.Abs(amps))
	}
	for v := range sum {
		if math.Abs(sum[v]) > 1e-9*(size[v]+1e-6*largest) {
			t.Errorf("node %d: %g A of %g do not balance", v, sum[v], size[v])
		}
	}
}

// The numbering of the nodes is of no account.
func TestNodeOrderDoesNotMatter(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 3))
		l := randomLinear(r, 2+r.IntN(60), 6)
		one, names := solveState(t, l.net, nil), l.renamed
		l.build(r.Perm(l.nodes))
		two := solveState(t, l.net, nil)
		for v := range l.nodes {
			x, y := one.Volts(names[v]), two.Volts(l.renamed[v])
			if math.Abs(x-y) > 1e-9*(1+math.Abs(x)) {
				t.Fatalf("seed %d node %d: %.15g and %.15g", seed, v, x, y)
			}
		}
	}
}
