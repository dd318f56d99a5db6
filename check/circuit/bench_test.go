package circuit_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"hame/check/circuit"
)

var sizes = []int{100, 1_000, 10_000, 100_000}

func BenchmarkCompile(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			m := newMachine(rand.New(rand.NewPCG(1, 1)), size)
			for b.Loop() {
				m.b.Compile()
			}
		})
	}
}

// BenchmarkSolve is one position of a machine with everything on.
func BenchmarkSolve(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			m := newMachine(rand.New(rand.NewPCG(1, 1)), size)
			n := m.b.Compile()
			s := n.State()
			m.all(s)
			steps := 0
			for b.Loop() {
				p, err := n.Solve(s)
				if err != nil {
					b.Fatal(err)
				}
				steps = p.Iterations()
			}
			b.ReportMetric(float64(steps), "steps")
		})
	}
}

// BenchmarkLadder is a linear ladder: two thirds wires, one third loads.
func BenchmarkLadder(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			n := ladder(size)
			s := n.State()
			for b.Loop() {
				if _, err := n.Solve(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func ladder(branches int) *circuit.Net {
	b := circuit.NewBuilder()
	neg, pos := b.Node(), b.Node()
	b.Source(pos, neg, battery(12.6, 0.01))
	for range branches / 3 {
		p, q := b.Node(), b.Node()
		b.Resistor(pos, p, 0.002)
		b.Resistor(neg, q, 0.002)
		b.Resistor(p, q, 1000)
		pos, neg = p, q
	}
	return b.Compile()
}

// BenchmarkDense is one dense LU of as many nodes as the ladder has, by gonum.
func BenchmarkDense(b *testing.B) {
	for _, size := range []int{100, 1_000} {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			n := 2 * size / 3
			r := rand.New(rand.NewPCG(1, 1))
			a, rhs := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
			for i := range n {
				a.Set(i, i, 4)
				j := r.IntN(n)
				a.Set(i, j, a.At(i, j)-1)
				rhs.SetVec(i, r.Float64())
			}
			var lu mat.LU
			var x mat.VecDense
			for b.Loop() {
				lu.Factorize(a)
				if err := lu.SolveVecTo(&x, false, rhs); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkFloor is the least that any pass over the branches can cost.
func BenchmarkFloor(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			x := make([]float64, size)
			for i := range x {
				x[i] = float64(i)
			}
			sum := 0.0
			for b.Loop() {
				for _, v := range x {
					sum += v
				}
			}
			if sum == 0 {
				b.Fatal("no sum")
			}
		})
	}
}
