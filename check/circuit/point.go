package circuit

import (
	"fmt"
	"math"
)

// Point is an operating point. It does not change with later solves.
type Point struct {
	net         *Net
	volts, amps []float64
	rest        []float32 // by node: what rounding took from its volts
	alive       []bool
	sagging     []Branch
	residual    float64
	iterations  int
}

// Volts is the voltage of n above the 0 V of its connected part; 0 for a node
// that no source reaches.
func (p *Point) Volts(n Node) float64 { return p.volts[n] }

// ByNode is Volts and Alive of all nodes, to be read and not to be changed.
func (p *Point) ByNode() (volts []float64, alive []bool) { return p.volts, p.alive }

// ByBranch is Current of all branches, to be read and not to be changed.
func (p *Point) ByBranch() []float64 { return p.amps }

// Drop is the volts from b's first node to its second, kept to more digits than
// the difference of the two nodes' volts. It is known across an open contact
// too, if both sides are in one connected part.
func (p *Point) Drop(b Branch) float64 {
	a, c := p.net.ends[b][0], p.net.ends[b][1]
	hi, lo := volts{p.volts[a], float64(p.rest[a])}.above(volts{p.volts[c], float64(p.rest[c])})
	return hi + lo
}

// Current is the amperes of b: from its first node to its second, but out of
// the positive node of a source and of a converter's output.
func (p *Point) Current(b Branch) float64 { return p.amps[b] }

// Alive tells whether n is joined to a source through branches that are on,
// whichever way diodes among them point.
func (p *Point) Alive(n Node) bool { return p.alive[n] }

// Sagging lists, ascending, the power loads and motors whose volts lie below
// their knee but are not nothing.
func (p *Point) Sagging() []Branch { return p.sagging }

// Residual is the greatest imbalance of currents at any node, relative to the
// sum of their magnitudes there plus a millionth of the largest current in the
// network and the leak of a blocked diode. It is worked out anew from the answer and is below 1e-9.
func (p *Point) Residual() float64 { return p.residual }

// Iterations is how many Newton steps were taken after the first linear solve.
func (p *Point) Iterations() int { return p.iterations }

// CollapseError says that a network has no steady point that could be found.
type CollapseError struct {
	Branches   []Branch // those at the node that would not balance
	Residual   float64
	Iterations int
}

func (e *CollapseError) Error() string {
	return fmt.Sprintf("circuit: no steady point at branches %v (imbalance %.2g after %d steps)",
		e.Branches, e.Residual, e.Iterations)
}

// nothing is the share of its knee below which a load counts as not fed.
const nothing = 1e-6

func (w *work) point() *Point {
	n := w.net
	nodes, branches := len(n.place), len(n.slot)
	all := make([]float64, nodes+branches)
	p := &Point{
		net: n, volts: all[:nodes:nodes], amps: all[nodes:], rest: make([]float32, nodes),
		alive: make([]bool, nodes), residual: w.residual, iterations: w.iterations,
	}
	for v, k := range n.place {
		at := &w.volts[k]
		p.volts[v], p.alive[v] = at.hi+at.lo, w.alive[k]
		p.rest[v] = float32(at.lo - (p.volts[v] - at.hi))
	}
	for i := range w.wires {
		r := &w.wires[i]
		hi, lo := w.drop(r.a, r.c)
		p.amps[r.branch] = r.siemens * (hi + lo)
	}
	w.fillCurves(p)
	return p
}

func (w *work) fillCurves(p *Point) {
	for i := range w.curves {
		c := &w.curves[i]
		switch l := c.law.(type) {
		case sourceLaw:
			p.amps[c.branch] = -c.amps
		case loadLaw:
			p.amps[c.branch] = c.amps
			hi, lo := w.drop(c.a, c.c)
			if u := math.Abs(hi + lo); l.sags && u < l.knee && u > nothing*l.knee {
				p.sagging = append(p.sagging, Branch(c.branch))
			}
		default:
			p.amps[c.branch] = c.amps
		}
	}
	for _, c := range w.ports {
		p.amps[c.in], p.amps[c.out] = c.flow.drawn, c.flow.given
	}
}
