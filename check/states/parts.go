package states

import (
	"slices"

	"hame/check/network"
)

// parts are the independent parts of a network: what hangs together without
// the nodes that are always fed (the bus) and the return side. Two parts act on
// each other through the bus's voltage alone.
type parts struct {
	n      *network.Network
	bus    []bool
	parent []int32 // of nodes, then of elements
}

// findParts splits a network. The bus is what the poles lead to through what
// passes.
func findParts(n *network.Network, poles []int, passes func(i int) bool) *parts {
	p := &parts{n: n, bus: make([]bool, n.Nodes), parent: make([]int32, n.Nodes+len(n.Elements))}
	for i := range p.parent {
		p.parent[i] = int32(i)
	}
	p.flood(poles, passes)
	for i := range n.Elements {
		e := &n.Elements[i]
		for _, v := range [2]int{e.A, e.B} {
			if p.inner(v) {
				p.join(n.Nodes+i, v)
			}
		}
	}
	return p
}

// inner: neither bus nor return.
func (p *parts) inner(v int) bool { return !p.bus[v] && !p.n.Return(v) }

// flood marks the bus.
func (p *parts) flood(todo []int, passes func(i int) bool) {
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if p.bus[v] || p.n.Return(v) {
			continue
		}
		p.bus[v] = true
		for _, i := range p.n.At[v] {
			if e := &p.n.Elements[i]; passes(i) && (e.Kind != network.Diode || e.A == v) {
				todo = append(todo, e.A+e.B-v)
			}
		}
	}
}

func (p *parts) root(x int) int {
	at := int32(x)
	for p.parent[at] != at {
		p.parent[at] = p.parent[p.parent[at]]
		at = p.parent[at]
	}
	return int(at)
}

// join takes the smaller number for the root, so that the outcome does not
// hang on the order.
func (p *parts) join(x, y int) {
	x, y = p.root(x), p.root(y)
	p.parent[max(x, y)] = int32(min(x, y))
}

// of is the part of an element.
func (p *parts) of(element int) int { return p.root(p.n.Nodes + element) }

// fixed: conducts in all positions.
func fixed(e *network.Element) bool {
	return e.Kind == network.Wire || e.Kind == network.Joint || e.Kind == network.Fuse
}

// sneaks marks the elements of parts that hold a bridging load; few harnesses
// have one.
func sneaks(n *network.Network, digests []digest) []bool {
	marks := make([]bool, len(digests))
	if !slices.ContainsFunc(digests, digest.bridges) {
		return marks
	}
	var poles []int
	for i := range n.Elements {
		if e := &n.Elements[i]; e.Kind == network.Source && e.Source.Sort == "battery" {
			poles = append(poles, e.A, e.B)
		}
	}
	p := findParts(n, poles, func(i int) bool { return fixed(&n.Elements[i]) })
	bridged := map[int]bool{}
	for i, e := range digests {
		if e.bridges() {
			bridged[p.of(i)] = true
		}
	}
	for i := range marks {
		marks[i] = bridged[p.of(i)]
	}
	return marks
}
