package facts

import "hame/check/network"

// Returns reports whether a node leads back to a source's pole on the return
// side, every contact counting as closed and a diode passed forwards alone.
func (f *Facts) Returns(node int) bool {
	return f.returning()[node]
}

// leadsBack marks all such nodes, in one walk from the poles against the way
// that a current would go.
func (f *Facts) leadsBack() []bool {
	n := f.Network
	seen := make([]bool, n.Nodes)
	var todo []int
	visit := func(v int) {
		if !seen[v] {
			seen[v] = true
			todo = append(todo, v)
		}
	}
	for i := range n.Elements {
		if e := &n.Elements[i]; e.Kind == network.Source {
			visit(e.A + e.B - n.Hot(i))
		}
	}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range n.At[at] {
			e := &n.Elements[i]
			if e.Kind != network.Load && e.Kind != network.Source && (e.Kind != network.Diode || at == e.B) {
				visit(e.A + e.B - at)
			}
		}
	}
	return seen
}
