package states

import (
	"cmp"
	"slices"
)

// mostMesh is the greatest block whose shares are worked out, in nodes.
const mostMesh = 40

// meshed bounds the edges of a block in which nothing opens. There the laws of
// Kirchhoff and Ohm alone say how much of what enters at one node runs along
// each edge, so the bound is the greatest over all that its nodes may give and
// take, which must come to nothing in sum.
func (b *bounder) meshed(blk *block) bool {
	if len(blk.nodes) > mostMesh {
		return false
	}
	if blk.shares == nil {
		for _, e := range blk.edges {
			if !fixed(&b.s.Network.Elements[e.element]) {
				return false
			}
		}
		blk.shares = b.shares(blk)
	}
	for k, e := range blk.edges {
		b.fore[e.element] = blk.greatest(blk.shares[k], 1)
		b.back[e.element] = blk.greatest(blk.shares[k], -1)
	}
	return true
}

// greatest is the most that flows along an edge, or back with sign -1. All
// nodes begin with taking what they can; what they take must come from
// somewhere, and comes first from the nodes that send most of it this way.
func (blk *block) greatest(shares []float64, sign float64) float64 {
	order := make([]int, len(shares))
	missing, amps := 0.0, 0.0
	for k, h := range blk.hang {
		order[k] = k
		missing += h.takes
		amps -= sign * shares[k] * h.takes
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(sign*shares[y], sign*shares[x]) })
	for _, k := range order {
		more := min(missing, blk.hang[k].gives+blk.hang[k].takes)
		amps += sign * shares[k] * more
		missing -= more
	}
	return max(0, amps)
}

// shares gives, for each edge, what runs along it from its first node to its
// second for each ampere that enters at a node and leaves at the first one.
func (b *bounder) shares(blk *block) [][]float64 {
	at := map[int32]int{}
	for k, v := range blk.nodes {
		at[v] = k
	}
	n := len(blk.nodes)
	m := make([][]float64, n) // conductances, and the currents that enter
	for k := range m {
		m[k] = make([]float64, 2*n)
		m[k][n+k] = 1
	}
	for _, e := range blk.edges {
		x, y, g := at[e.a], at[e.b], 1/b.each[e.element]
		m[x][x] += g
		m[y][y] += g
		m[x][y] -= g
		m[y][x] -= g
	}
	solveGrounded(m)
	all := make([][]float64, len(blk.edges))
	for i, e := range blk.edges {
		x, y, g := at[e.a], at[e.b], 1/b.each[e.element]
		all[i] = make([]float64, n)
		for k := range n {
			all[i][k] = g * (m[x][n+k] - m[y][n+k])
		}
	}
	return all
}

// solveGrounded turns the right half into volts above node 0 (Gauss and
// Jordan; the matrix is positive definite without that node).
func solveGrounded(m [][]float64) {
	n := len(m)
	for k := range m[0] {
		m[0][k] = 0
	}
	for p := 1; p < n; p++ {
		pivot := m[p][p]
		for k := range m[p] {
			m[p][k] /= pivot
		}
		for r := 1; r < n; r++ {
			if f := m[r][p]; r != p && f != 0 {
				for k := range m[r] {
					m[r][k] -= f * m[p][k]
				}
			}
		}
	}
	for r := range m {
		m[r][n] = 0
	}
}
