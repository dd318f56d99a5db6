package protect

import (
	"container/heap"

	"hame/check/network"
)

// regions says in which region each node lies: what wires, joints and contacts
// tie, whatever their position. Return nodes lie in none.
type regions struct {
	n     *network.Network
	of    []int
	fuses map[int][]int // the Fuse elements that touch a region
	ways  map[int][]int // the diodes that lead out of a region
}

func findRegions(n *network.Network) regions {
	g := regions{n: n, of: make([]int, n.Nodes), fuses: map[int][]int{}, ways: map[int][]int{}}
	for i := range g.of {
		g.of[i] = -1
	}
	count := 0
	for i := range g.of {
		if g.of[i] < 0 && !n.Return(i) {
			g.flood(i, count)
			count++
		}
	}
	for i, e := range n.Elements {
		a, b := g.of[e.A], g.of[e.B]
		if a < 0 || b < 0 || a == b {
			continue
		}
		switch e.Kind {
		case network.Fuse:
			g.fuses[a] = append(g.fuses[a], i)
			g.fuses[b] = append(g.fuses[b], i)
		case network.Diode:
			g.ways[a] = append(g.ways[a], i)
		}
	}
	return g
}

func (g *regions) flood(from, region int) {
	todo := []int{from}
	g.of[from] = region
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range g.n.At[at] {
			e := &g.n.Elements[i]
			next := e.A + e.B - at
			if ties(e) && g.of[next] < 0 && !g.n.Return(next) {
				g.of[next] = region
				todo = append(todo, next)
			}
		}
	}
}

// ties: what leads a fault on and protects nothing.
func ties(e *network.Element) bool {
	return e.Kind == network.Wire || e.Kind == network.Joint || e.Kind == network.Contact
}

// from works out what one source reaches.
func (g regions) from(source int) *Reach {
	hot := g.n.Hot(source)
	r := &Reach{
		Source: source, regions: g, root: g.of[hot],
		distM: map[int]float64{}, via: map[int]int{}, unknown: map[int]bool{},
		bare: map[int]bool{}, parent: map[int]entry{}, bridge: map[int]bool{},
	}
	if r.root < 0 {
		return r
	}
	r.measure(hot)
	r.spread()
	r.bridges()
	return r
}

// measure finds the distance along the conductors of every node that no device
// parts from the source (Dijkstra); diodes are passed forwards.
func (r *Reach) measure(hot int) {
	q := &queue{{node: hot, via: -1}}
	for q.Len() > 0 {
		at := heap.Pop(q).(visit)
		if _, done := r.distM[at.node]; done {
			continue
		}
		r.distM[at.node], r.via[at.node], r.unknown[at.node] = at.distM, at.via, at.unknown
		r.order = append(r.order, at.node)
		r.bare[r.of[at.node]] = true
		for _, i := range r.n.At[at.node] {
			e := &r.n.Elements[i]
			next := e.A + e.B - at.node
			forward := e.Kind == network.Diode && at.node == e.A
			if _, done := r.distM[next]; done || r.n.Return(next) || !ties(e) && !forward {
				continue
			}
			v := visit{next, i, at.distM, at.unknown}
			if e.Wire != nil {
				v.distM += e.Wire.LengthM
				v.unknown = v.unknown || !e.Wire.HasLength
			}
			heap.Push(q, v)
		}
	}
}

// spread goes on from the bare regions through protective devices, the fewest
// first.
func (r *Reach) spread() {
	var todo []int
	for _, node := range r.order {
		if region := r.of[node]; len(todo) == 0 || todo[len(todo)-1] != region {
			todo = append(todo, region)
		}
	}
	for len(todo) > 0 {
		at := todo[0]
		todo = append(todo[1:], r.enter(at)...)
	}
}

// enter goes from a region over its devices and diodes into new ones.
func (r *Reach) enter(at int) []int {
	var found []int
	into := func(element, next int) {
		if _, seen := r.parent[next]; !seen && !r.bare[next] {
			r.parent[next] = entry{element, at}
			found = append(found, next)
		}
	}
	for _, f := range r.fuses[at] {
		e := r.n.Elements[f]
		into(f, r.of[e.A]+r.of[e.B]-at)
	}
	for _, d := range r.ways[at] {
		into(d, r.of[r.n.Elements[d].B])
	}
	return found
}

// visit is a node that waits to be measured.
type visit struct {
	node, via int
	distM     float64
	unknown   bool
}

type queue []visit

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return q[i].distM < q[j].distM || q[i].distM == q[j].distM && q[i].node < q[j].node
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(visit)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
