package wiring

import "hame/check/network"

// far is the distance of what no source leads to.
const far = 1 << 30

// measure finds how many steps each node is from a source: on the feed side along
// what carries its current on, on the return side from its other pole.
func (s *scheme) measure() {
	n := s.facts.Network
	s.dist = make([]int, n.Nodes)
	for i := range s.dist {
		s.dist[i] = far
	}
	var hot, cold, rails []int
	for i := range n.Elements {
		e := &n.Elements[i]
		if e.Kind != network.Source {
			continue
		}
		pole := n.Hot(i)
		if e.Source.Sort == "converter" {
			rails = append(rails, pole)
		} else {
			hot = append(hot, pole)
		}
		cold = append(cold, e.A+e.B-pole)
	}
	for _, d := range s.harness.Devices {
		if d.Is("supply", "tap") {
			hot = append(hot, d.Terminals[0].Index)
		}
	}
	s.spread(hot, 0)
	s.spread(cold, 0)
	const behind = 1000 // a rail comes after what feeds it
	s.spread(rails, behind)
	s.spreadRest()
}

// spread walks from nodes outwards, not over to the return side nor back.
func (s *scheme) spread(from []int, start int) {
	n := s.facts.Network
	var todo []int
	reach := func(node, d int) {
		if s.dist[node] == far {
			s.dist[node] = d
			todo = append(todo, node)
		}
	}
	for _, node := range from {
		reach(node, start)
	}
	for len(todo) > 0 {
		at := todo[0]
		todo = todo[1:]
		for _, i := range n.At[at] {
			e := &n.Elements[i]
			next := e.A + e.B - at
			if e.Kind == network.Load || e.Kind == network.Source || n.Return(next) != n.Return(at) && e.Kind != network.Contact {
				continue
			}
			reach(next, s.dist[at]+1)
		}
	}
}

// spreadRest numbers what no source leads to from its first terminal on.
func (s *scheme) spreadRest() {
	const beyond = 1 << 20
	for _, d := range s.harness.Devices {
		if t := d.Terminals; len(t) > 0 && s.dist[t[0].Index] == far {
			s.spread([]int{t[0].Index}, beyond)
		}
	}
}
