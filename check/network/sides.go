package network

import (
	"hame/check/figures"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// sides says which nodes are feed and which are return.
type sides struct {
	returns []bool
	feeds   []bool
}

// Return reports whether a node is on the return side.
func (s *sides) Return(n int) bool { return s.returns[n] }

// Feed reports whether a source can feed a node through anything but a load.
func (s *sides) Feed(n int) bool { return s.feeds[n] }

// Side says on which side a wire lies.
func (n *Network) Side(w *harness.Wire) figures.Side {
	e := &n.Elements[n.OfWire(w)]
	switch {
	case n.returns[e.A] || n.returns[e.B]:
		return figures.Return
	case n.feeds[e.A] || n.feeds[e.B]:
		return figures.Feed
	}
	return figures.Between
}

// Hot is the pole of a source that is not on the return side.
func (n *Network) Hot(source int) int {
	e := &n.Elements[source]
	if n.returns[e.A] && !n.returns[e.B] {
		return e.B
	}
	return e.A
}

// findSides first ties what wires and joints alone tie, then asks which of it
// holds the grounded pole, then what the sources' other poles reach.
func findSides(n *Network) sides {
	s := sides{returns: make([]bool, n.Nodes), feeds: make([]bool, n.Nodes)}
	for _, seed := range returnSeeds(n) {
		n.walk(seed, s.returns, func(e *Element) bool { return e.Kind == Wire || e.Kind == Joint }, nil)
	}
	n.sides = s
	for i := range n.Elements {
		if n.Elements[i].Kind == Source {
			n.walk(n.Hot(i), s.feeds, conducts, s.returns)
		}
	}
	return s
}

// conducts: everything but loads and sources carries a feed on.
func conducts(e *Element) bool { return e.Kind != Load && e.Kind != Source }

// walk marks what can be reached from a node through elements that pass. It
// does not enter what is barred, and a diode is passed forwards alone.
func (n *Network) walk(from int, seen []bool, passes func(*Element) bool, barred []bool) {
	n.walkTelling(from, seen, passes, barred, func(int) {})
}

// walkTelling is walk that tells of each node that it marks.
func (n *Network) walkTelling(from int, seen []bool, passes func(*Element) bool, barred []bool, marked func(int)) {
	if seen[from] || barred != nil && barred[from] {
		return
	}
	seen[from] = true
	todo := []int{from}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		marked(at)
		for _, i := range n.At[at] {
			e := &n.Elements[i]
			if !passes(e) || e.Kind == Diode && at != e.A {
				continue
			}
			next := e.A + e.B - at
			if !seen[next] && (barred == nil || !barred[next]) {
				seen[next] = true
				todo = append(todo, next)
			}
		}
	}
}

// returnSeeds are the chassis and the grounded pole: the one that is tied to a
// chassis, a closed isolator or switch in the way not counting; with no
// chassis, the lowest negative.
func returnSeeds(n *Network) []int {
	var seeds []int
	for _, d := range n.Harness.Devices {
		if d.Is(kinds.Ground) {
			seeds = append(seeds, node(d.Terminals[0]))
		}
	}
	if len(seeds) == 0 {
		return lowestNegative(n)
	}
	tied := make([]bool, n.Nodes)
	for _, s := range seeds {
		n.walk(s, tied, func(e *Element) bool { return e.Kind == Wire || e.Kind == Joint }, nil)
	}
	if pole := poleIn(n, tied); pole >= 0 {
		return seeds
	}
	for _, s := range seeds {
		clear(tied)
		n.walk(s, tied, func(e *Element) bool {
			return e.Kind == Wire || e.Kind == Joint || e.Kind == Contact && e.Gate.By == Hand
		}, nil)
		if pole := poleIn(n, tied); pole >= 0 {
			return append(seeds, pole)
		}
	}
	return append(seeds, lowestNegative(n)...)
}

// poleIn finds a source's pole among marked nodes, a battery's before others.
func poleIn(n *Network, marked []bool) int {
	for _, sort := range []string{"battery", "alternator", "converter"} {
		for i := range n.Elements {
			e := &n.Elements[i]
			if e.Kind != Source || e.Source.Sort != sort {
				continue
			}
			if marked[e.B] {
				return e.B
			}
			if marked[e.A] {
				return e.A
			}
		}
	}
	return -1
}

// lowestNegative is the negative of the first battery, or other source, that
// no other source's positive is tied to: the bottom of a string.
func lowestNegative(n *Network) []int {
	tops := make([]bool, n.Nodes)
	for i := range n.Elements {
		if e := &n.Elements[i]; e.Kind == Source {
			n.walk(e.A, tops, func(e *Element) bool { return e.Kind == Wire || e.Kind == Joint }, nil)
		}
	}
	for _, sort := range []string{"battery", "alternator", "converter"} {
		for i := range n.Elements {
			if e := &n.Elements[i]; e.Kind == Source && e.Source.Sort == sort && !tops[e.B] {
				return []int{e.B}
			}
		}
	}
	return nil
}

// Grounds lists the nodes that stand for 0 V: the chassis, else the grounded
// pole.
func (n *Network) Grounds() []int {
	var list []int
	for _, d := range n.Harness.Devices {
		if d.Is(kinds.Ground, "chassis") {
			list = append(list, node(d.Terminals[0]))
		}
	}
	if len(list) == 0 {
		return lowestNegative(n)
	}
	return list
}

// Leads reports whether a node leads to one that is wanted, through anything
// but loads and sources, diodes forwards; what is barred is not passed.
func (n *Network) Leads(from int, wanted func(int) bool, barred func(*Element) bool) bool {
	return n.search(from, wanted, barred, func(e *Element, at int) bool { return at == e.A })
}

// LedTo reports whether one that is wanted leads to a node.
func (n *Network) LedTo(to int, wanted func(int) bool, barred func(*Element) bool) bool {
	return n.search(to, wanted, barred, func(e *Element, at int) bool { return at == e.B })
}

func (n *Network) search(from int, wanted func(int) bool, barred func(*Element) bool, passes func(*Element, int) bool) bool {
	seen := map[int]bool{from: true}
	todo := []int{from}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if wanted(at) {
			return true
		}
		for _, i := range n.At[at] {
			e := &n.Elements[i]
			next := e.A + e.B - at
			if seen[next] || !conducts(e) || e.Kind == Diode && !passes(e, at) || barred != nil && barred(e) {
				continue
			}
			seen[next] = true
			todo = append(todo, next)
		}
	}
	return false
}
