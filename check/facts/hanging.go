package facts

import "hame/check/network"

// Hanging is a part of the return side that one tie alone holds to the sources'
// poles: the elements one after the other that it hangs by, and the loads that
// lose their return with any of them.
type Hanging struct {
	Ties  []int // ascending
	Loads []int // ascending in the order of the walk
}

// Hangings lists the parts of the return side that hang by one tie, the smaller
// before the larger that hold them; and the ties that are none such, since
// current finds another way round them. A switch in a return counts as closed.
func (f *Facts) Hangings() (hanging []Hanging, looped []int) {
	w := &hangWalk{f: f, seen: make([]int, f.Network.Nodes), low: make([]int, f.Network.Nodes), is: make([]bool, f.Network.Nodes)}
	for i := range f.Network.Elements {
		if e := &f.Network.Elements[i]; e.Kind == network.Source && e.Source.Sort != "converter" {
			if pole := e.A + e.B - f.Network.Hot(i); f.Network.Return(pole) && !w.is[pole] {
				w.is[pole], w.poles = true, append(w.poles, pole)
			}
		}
	}
	if len(w.poles) == 0 {
		return nil, nil
	}
	w.visit(w.poles[0], -1)
	return w.found, w.looped()
}

// hangWalk is a walk from the poles, taken as one node, that finds the bridges
// of the return side.
type hangWalk struct {
	f      *Facts
	poles  []int
	is     []bool // by node: a pole
	seen   []int  // by node: its number in the walk, from 1
	low    []int  // the least number that it reaches by another way
	count  int
	loads  []int // in the order of the walk
	found  []Hanging
	last   [2]int // the stretch of loads that the part found last is
	bridge []int
}

// home is the node that stands for a node: the first pole for all poles.
func (w *hangWalk) home(node int) int {
	if w.is[node] {
		return w.poles[0]
	}
	return node
}

func (w *hangWalk) visit(node, via int) {
	w.count++
	w.seen[node], w.low[node] = w.count, w.count
	nodes := []int{node}
	if w.is[node] {
		nodes = w.poles
	}
	for _, n := range nodes {
		for _, i := range w.f.Network.At[n] {
			w.note(i, n)
			if next := w.home(w.f.Across(i, n)); i != via && next != node && w.f.tiesReturn(i) {
				w.step(node, next, i)
			}
		}
	}
}

// note takes in a load that returns at a node.
func (w *hangWalk) note(i, node int) {
	if w.f.Network.Elements[i].Kind == network.Load && !w.f.Network.Return(w.f.Across(i, node)) {
		w.loads = append(w.loads, i)
	}
}

// step goes over a tie; where nothing behind it leads round it, it's a bridge.
func (w *hangWalk) step(node, next, i int) {
	if w.seen[next] > 0 {
		w.low[node] = min(w.low[node], w.seen[next])
		return
	}
	before := len(w.loads)
	w.visit(next, i)
	w.low[node] = min(w.low[node], w.low[next])
	if w.low[next] > w.seen[node] {
		w.bridge = append(w.bridge, i)
		w.hang(i, before)
	}
}

// hang notes the loads behind a bridge, together with the bridges right behind
// it that hold the same loads.
func (w *hangWalk) hang(i, before int) {
	stretch := [2]int{before, len(w.loads)}
	if stretch[0] == stretch[1] {
		return
	}
	if w.last != stretch {
		w.last = stretch
		w.found = append(w.found, Hanging{Loads: w.loads[stretch[0]:stretch[1]:stretch[1]]})
	}
	last := &w.found[len(w.found)-1]
	last.Ties = append(last.Ties, i)
}

// looped lists the ties that were met and are no bridges.
func (w *hangWalk) looped() []int {
	bridges := make([]bool, len(w.f.Network.Elements))
	for _, i := range w.bridge {
		bridges[i] = true
	}
	var list []int
	for i := range w.f.Network.Elements {
		if e := &w.f.Network.Elements[i]; !bridges[i] && w.f.tiesReturn(i) && w.seen[w.home(e.A)] > 0 && w.home(e.A) != w.home(e.B) {
			list = append(list, i)
		}
	}
	return list
}

// tiesReturn: wires and joints of the return side, and switches in it.
func (f *Facts) tiesReturn(i int) bool {
	e := &f.Network.Elements[i]
	tie := e.Kind == network.Wire || e.Kind == network.Joint || e.Kind == network.Contact
	return tie && f.Network.Return(e.A) && f.Network.Return(e.B)
}

// OnFromA is the current in A from which a load counts as on.
func (f *Facts) OnFromA(load int) float64 {
	return onShare * f.Network.Elements[load].Load.AmpsAtRated()
}
