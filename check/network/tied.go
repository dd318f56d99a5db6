package network

// Tied numbers the points of a network: nodes that wires and joints alone tie
// have the same number.
func (n *Network) Tied() []int {
	of, seen := make([]int, n.Nodes), make([]bool, n.Nodes)
	ties := func(e *Element) bool { return e.Kind == Wire || e.Kind == Joint }
	for i := range of {
		n.walkTelling(i, seen, ties, nil, func(node int) { of[node] = i })
	}
	return of
}
