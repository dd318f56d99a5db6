package facts

import (
	"math"
	"slices"

	"hame/check/network"
)

// between is the way from one node to another: along the current where one
// leads there, by the branches that carry the most; else by whatever conducts.
// It never passes the source that it's for, nor a load.
func (w walker) between(from, to, source int) []Step {
	if steps, ok := w.widest(from, to, source, w.leaving, w.along); ok {
		return steps
	}
	steps, _ := w.widest(from, to, source, func(node int) []int { return w.f.Network.At[node] }, w.conducts)
	return steps
}

// along is how much an element carries out of a node, 0 where it's the wrong
// way. Batteries in a string are passed, loads aren't.
func (w walker) along(i, node int) float64 {
	if amps := w.out(i, node); amps > noAmps && w.element(i).Kind != network.Load {
		return amps
	}
	return 0
}

// conducts is how much an element carries either way; a wire, joint or device
// that carries nothing conducts still.
func (w walker) conducts(i, node int) float64 {
	amps := max(w.out(i, node), -w.out(i, node))
	switch w.element(i).Kind {
	case network.Wire, network.Joint, network.Fuse:
		return max(amps, noAmps)
	case network.Contact, network.Diode:
		if amps > noAmps {
			return amps
		}
	}
	return 0
}

// widest finds the way whose least current is the greatest. Of equals the one
// of the lower node wins, so that the outcome is the same every time.
func (w walker) widest(from, to, source int, at func(node int) []int, width func(i, node int) float64) ([]Step, bool) {
	best, via, done := map[int]float64{from: math.Inf(1)}, map[int]int{}, map[int]bool{}
	for open := []int{from}; len(open) > 0; {
		k := widestOf(open, best)
		node := open[k]
		open = slices.Delete(open, k, k+1)
		if node == to {
			return w.trace(from, to, via), true
		}
		done[node] = true
		reach := best[node]
		for _, i := range at(node) {
			least := min(reach, width(i, node))
			if least == 0 {
				continue // most of what touches a chassis brings current to it
			}
			next := w.across(i, node)
			if i == source || done[next] || least <= best[next] {
				continue
			}
			if best[next] == 0 {
				open = append(open, next)
			}
			best[next], via[next] = least, i
		}
	}
	return nil, false
}

func widestOf(open []int, best map[int]float64) int {
	k := 0
	for j, node := range open {
		if a, b := best[node], best[open[k]]; a > b || a == b && node < open[k] {
			k = j
		}
	}
	return k
}

// trace lists the steps that led to a node.
func (w walker) trace(from, to int, via map[int]int) []Step {
	var steps []Step
	for node := to; node != from; {
		i := via[node]
		before := w.across(i, node)
		steps = append(steps, w.step(i, before))
		node = before
	}
	slices.Reverse(steps)
	return steps
}
