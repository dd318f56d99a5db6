package network

// Tied numbers the points of a network: nodes that wires and joints alone tie
// have the same number.
func (n *Network) Tied() []int {
	of := make([]int, n.Nodes)
	for i := range of {
		of[i] = -1
	}
	ties := func(e *Element) bool { return e.Kind == Wire || e.Kind == Joint }
	seen := make([]bool, n.Nodes)
	for i := range of {
		if of[i] < 0 {
			n.number(i, i, of, seen, ties)
		}
	}
	return of
}

func (n *Network) number(from, point int, of []int, seen []bool, ties func(*Element) bool) {
	seen[from] = true
	todo := []int{from}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		of[at] = point
		for _, i := range n.At[at] {
			e := &n.Elements[i]
			if next := e.A + e.B - at; ties(e) && !seen[next] {
				seen[next] = true
				todo = append(todo, next)
			}
		}
	}
}
