package protect

import (
	"container/heap"
	"slices"

	"hame/check/network"
	"hame/lang/slab"
)

// regions says in which region each node lies: what wires, joints and contacts
// tie, whatever their position. Return nodes lie in none.
type regions struct {
	n     *network.Network
	of    []int // by node; -1 for none
	count int
	fuses [][]int       // by region: the Fuse elements that touch it
	ways  map[int][]int // the diodes that lead out of a region
}

func findRegions(n *network.Network) regions {
	g := regions{n: n, of: make([]int, n.Nodes)}
	for i := range g.of {
		g.of[i] = -1
	}
	var todo []int
	for i := range g.of {
		if g.of[i] < 0 && !n.Return(i) {
			todo = g.flood(i, g.count, todo)
			g.count++
		}
	}
	g.links()
	return g
}

// links finds what leads from region to region.
func (g *regions) links() {
	g.fuses, g.ways = make([][]int, g.count), map[int][]int{}
	touching := make([]int, g.count)
	g.between(network.Fuse, func(_, a, b int) {
		touching[a]++
		touching[b]++
	})
	var lists slab.Of[int]
	for region, count := range touching {
		g.fuses[region] = lists.Take(count)[:0]
	}
	g.between(network.Fuse, func(i, a, b int) {
		g.fuses[a] = append(g.fuses[a], i)
		g.fuses[b] = append(g.fuses[b], i)
	})
	g.between(network.Diode, func(i, a, _ int) { g.ways[a] = append(g.ways[a], i) })
}

// between calls back for each element of a kind between two regions.
func (g *regions) between(kind network.Kind, each func(element, a, b int)) {
	for i := range g.n.Elements {
		e := &g.n.Elements[i]
		if e.Kind != kind {
			continue
		}
		if a, b := g.of[e.A], g.of[e.B]; a >= 0 && b >= 0 && a != b {
			each(i, a, b)
		}
	}
}

// flood marks all that a region ties to a node. todo is memory to work in, and is
// given back.
func (g *regions) flood(from, region int, todo []int) []int {
	todo = append(todo, from)
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
	return todo
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
		at: make([]int32, g.n.Nodes), bare: make([]bool, g.count), parent: make([]entry, g.count),
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
		if r.at[at.node] > 0 {
			continue
		}
		r.order = append(r.order, at)
		r.at[at.node] = int32(len(r.order))
		if region := r.of[at.node]; !r.bare[region] {
			r.bare[region] = true
			r.nearest = append(r.nearest, region)
		}
		for _, i := range r.n.At[at.node] {
			e := &r.n.Elements[i]
			next := e.A + e.B - at.node
			forward := e.Kind == network.Diode && at.node == e.A
			if r.at[next] > 0 || r.n.Return(next) || !ties(e) && !forward {
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
	todo := slices.Clone(r.nearest)
	for k := 0; k < len(todo); k++ {
		todo = r.enter(todo[k], todo)
	}
}

// enter goes from a region over its devices and diodes into new ones, and adds
// those to a list.
func (r *Reach) enter(at int, list []int) []int {
	into := func(element, next int) {
		if r.parent[next].element == 0 && !r.bare[next] {
			r.parent[next] = entry{int32(element + 1), int32(at)}
			list = append(list, next)
		}
	}
	for _, f := range r.fuses[at] {
		e := &r.n.Elements[f]
		into(f, r.of[e.A]+r.of[e.B]-at)
	}
	for _, d := range r.ways[at] {
		into(d, r.of[r.n.Elements[d].B])
	}
	return list
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
