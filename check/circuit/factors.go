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
	start, up, self := f.rows.start, f.up, f.self
	for k := range f.pivot {
		if fixed[k] {
			f.pivot[k] = 1
			continue
		}
		from, to := start[k], start[k+1]
		pivot := self[k]
		for _, g := range up[from:to] {
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
	cols, start, self, up, low := f.rows.cols, f.rows.start, f.self, f.up, f.low
	for p := from; p < to; p++ {
		i := cols[p]
		share, back := low[p]*perPivot, up[p]*perPivot
		self[i] += share * self[k]
		at := start[i]
		for q := p + 1; q < to; q++ {
			for cols[at] != cols[q] {
				at++
			}
			up[at] += share * up[q]
			low[at] += low[q] * back
		}
		low[p] = share
	}
}

// solve replaces amperes by volts.
func (f *factors) solve(x []float64) {
	start, up, low, pivot := f.rows.start[:len(x)+1], f.up, f.low, f.pivot[:len(x)]
	for k := range x {
		if xk := x[k]; xk != 0 {
			from, to := start[k], start[k+1]
			share := low[from:to]
			for p, c := range f.rows.cols[from:to] {
				x[c] += share[p] * xk
			}
		}
	}
	for k := len(x) - 1; k >= 0; k-- {
		sum, from, to := x[k], start[k], start[k+1]
		lean := up[from:to]
		for p, c := range f.rows.cols[from:to] {
			sum += lean[p] * x[c]
		}
		x[k] = sum / pivot[k]
	}
}
