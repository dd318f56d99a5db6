package circuit

// factors is the matrix of one Newton step and, after eliminate, its factors.
//
// Row i reads self[i]·v[i] + Σ toward·(v[i] − v[j]) = amperes, which is how a
// node with conductances to its neighbours and to 0 V looks. The diagonal is
// never stored: it is the sum of the others, and eliminating a node spreads its
// conductances over its neighbours (star-mesh transform) by additions alone
// while all are positive. That keeps each of them accurate to its own last
// digits (Alfa, Xue and Ye 2002 for diagonally dominant M-matrices, from
// memory) where an ordinary factorisation loses the small ones.
type factors struct {
	rows  pattern
	up    []float64 // entry (i, j), i < j: how node i's amperes lean on j
	low   []float64 // the same of (j, i); after eliminate, divided by pivot i
	self  []float64 // by place: conductance to 0 V
	pivot []float64 // by place
}

func newFactors(rows pattern) factors {
	n := len(rows.start) - 1
	return factors{
		rows: rows,
		up:   make([]float64, len(rows.cols)), low: make([]float64, len(rows.cols)),
		self: make([]float64, n), pivot: make([]float64, n),
	}
}

// eliminate factors the matrix in place. Fixed places are held at 0 V and have
// no entries. It answers none or, when a pivot is not above 0, its place: there
// the network is not stable at these slopes.
func (f *factors) eliminate(fixed []bool) int32 {
	for k := range f.pivot {
		if fixed[k] {
			f.pivot[k] = 1
			continue
		}
		from, to := f.rows.start[k], f.rows.start[k+1]
		pivot := f.self[k]
		for _, g := range f.up[from:to] {
			pivot += g
		}
		if !(pivot > 0) {
			return int32(k)
		}
		f.pivot[k] = pivot
		f.spread(k, from, to, 1/pivot)
	}
	return none
}

// spread replaces node k by conductances between its later neighbours.
func (f *factors) spread(k int, from, to int32, perPivot float64) {
	cols := f.rows.cols
	for p := from; p < to; p++ {
		i := cols[p]
		share, back := f.low[p]*perPivot, f.up[p]*perPivot
		f.self[i] += share * f.self[k]
		at := f.rows.start[i]
		for q := p + 1; q < to; q++ {
			for cols[at] != cols[q] {
				at++
			}
			f.up[at] += share * f.up[q]
			f.low[at] += f.low[q] * back
		}
		f.low[p] = share
	}
}

// solve replaces amperes by volts.
func (f *factors) solve(x []float64) {
	cols, start := f.rows.cols, f.rows.start
	for k := range x {
		if xk := x[k]; xk != 0 {
			for p := start[k]; p < start[k+1]; p++ {
				x[cols[p]] += f.low[p] * xk
			}
		}
	}
	for k := len(x) - 1; k >= 0; k-- {
		sum := x[k]
		for p := start[k]; p < start[k+1]; p++ {
			sum += f.up[p] * x[cols[p]]
		}
		x[k] = sum / f.pivot[k]
	}
}
