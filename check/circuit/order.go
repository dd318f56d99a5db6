package circuit

// ordering finds an elimination order of a graph by minimum degree: the node
// with the fewest neighbours goes first, and its neighbours become neighbours
// of one another. On trees and ladders that makes next to no fill.
type ordering struct {
	near   [][]int32 // neighbours; may still hold nodes that are gone
	degree []int32   // neighbours that are not gone
	gone   []bool
	queue  buckets
}

// minimumDegree consumes near, which lists each node's neighbours without
// repeats. It returns the nodes in elimination order and, for each in that
// order, the neighbours that it had when it went.
func minimumDegree(near [][]int32) (order []int32, rows [][]int32) {
	n := len(near)
	o := &ordering{near: near, degree: make([]int32, n), gone: make([]bool, n), queue: newBuckets(n)}
	for v := n - 1; v >= 0; v-- {
		o.degree[v] = int32(len(near[v]))
		o.queue.put(int32(v), o.degree[v])
	}
	order, rows = make([]int32, 0, n), make([][]int32, 0, n)
	for len(order) < n {
		v := o.queue.take()
		if left := n - len(order); int(o.degree[v]) == left-1 {
			return o.finish(v, order, rows)
		}
		order, rows = append(order, v), append(rows, o.eliminate(v))
	}
	return order, rows
}

// finish orders what is left once v is a neighbour of all of it: without v it
// would be fully joined, and then one order is as good as another.
func (o *ordering) finish(v int32, order []int32, rows [][]int32) ([]int32, [][]int32) {
	o.sweep(v)
	rest := append([]int32{v}, o.near[v]...)
	for i, w := range rest {
		order, rows = append(order, w), append(rows, rest[i+1:])
	}
	return order, rows
}

func (o *ordering) eliminate(v int32) []int32 {
	o.sweep(v)
	row := o.near[v]
	o.gone[v] = true
	for i, a := range row {
		o.queue.drop(a, o.degree[a])
		o.degree[a]--
		for _, b := range row[:i] {
			o.join(a, b)
		}
	}
	for _, a := range row {
		o.queue.put(a, o.degree[a])
	}
	o.near[v] = nil
	return row
}

// join makes a and b neighbours. Neither may be in the queue.
func (o *ordering) join(a, b int32) {
	if len(o.near[a]) > len(o.near[b]) {
		a, b = b, a
	}
	for i, w := range o.near[a] {
		if w == b {
			// Asked once, it is asked again: two buses joined by a thousand
			// loads would be slow without this.
			o.near[a][0], o.near[a][i] = b, o.near[a][0]
			return
		}
	}
	o.near[a], o.near[b] = append(o.near[a], b), append(o.near[b], a)
	o.degree[a]++
	o.degree[b]++
	o.tidy(a)
	o.tidy(b)
}

func (o *ordering) tidy(v int32) {
	if len(o.near[v]) > 8+2*int(o.degree[v]) {
		o.sweep(v)
	}
}

// sweep drops the neighbours of v that are gone.
func (o *ordering) sweep(v int32) {
	kept := o.near[v][:0]
	for _, w := range o.near[v] {
		if !o.gone[w] {
			kept = append(kept, w)
		}
	}
	o.near[v] = kept
}

// buckets is a queue by degree: linked lists threaded through two slices.
type buckets struct {
	head, next, prev []int32
	least            int32
}

const none = int32(-1)

func newBuckets(n int) buckets {
	b := buckets{head: make([]int32, n+1), next: make([]int32, n), prev: make([]int32, n)}
	for i := range b.head {
		b.head[i] = none
	}
	return b
}

func (b *buckets) put(v, degree int32) {
	b.next[v], b.prev[v] = b.head[degree], none
	if h := b.head[degree]; h != none {
		b.prev[h] = v
	}
	b.head[degree] = v
	b.least = min(b.least, degree)
}

func (b *buckets) drop(v, degree int32) {
	if p := b.prev[v]; p != none {
		b.next[p] = b.next[v]
	} else {
		b.head[degree] = b.next[v]
	}
	if nx := b.next[v]; nx != none {
		b.prev[nx] = b.prev[v]
	}
}

// take removes a node of least degree. The queue must not be empty.
func (b *buckets) take() int32 {
	for b.head[b.least] == none {
		b.least++
	}
	v := b.head[b.least]
	b.drop(v, b.least)
	return v
}
