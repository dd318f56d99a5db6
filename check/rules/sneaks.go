package rules

import (
	"math"
	"strings"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
)

// sneaks looks for what goes wrong when returns open, within its work.
type sneaks struct {
	c      *Context
	points []*states.Point
	left   int     // work, in elements solved
	found  [][]int // the loads of the parts that a sneak was found in
}

// sneak is what goes wrong in one position when one tie of the return opens.
type sneak struct {
	tie           int          // the element that is open
	hangs         map[int]bool // the loads that lose their return
	before, after *states.Point
	element       int // the load that runs, or the wire that carries too much
	amps          float64
	related       []finding.Related
}

// holdsFound reports whether a part holds one that a sneak was found in.
func (s *sneaks) holdsFound(loads []int) bool {
	in := map[int]bool{}
	for _, i := range loads {
		in[i] = true
	}
	for _, found := range s.found {
		all := true
		for _, i := range found {
			all = all && in[i]
		}
		if all {
			return true
		}
	}
	return false
}

// search opens the tie of a hanging part in the positions in which its loads
// have a way to feed another, and reports the first sneak.
func (s *sneaks) search(h facts.Hanging) {
	hangs := map[int]bool{}
	for _, i := range h.Loads {
		hangs[i] = true
	}
	tie := s.c.wireOf(h.Ties)
	var solver *states.Solver
	for _, p := range s.points {
		if !s.leads(p, hangs) {
			continue
		}
		if solver == nil {
			solver = states.NewSolver(s.c.Network.Without(tie))
		}
		k, ok := s.open(solver, sneak{tie: tie, hangs: hangs, before: p})
		if ok {
			s.found = append(s.found, h.Loads)
			k.related = s.c.alsoTied(tie, h)
			s.c.reportSneak(k)
			return
		}
	}
}

// leads reports whether, in a position, one of the hanging loads is fed and
// another stands in a dead net with a load that returns elsewhere: then a
// current has a way, once the tie is open.
func (s *sneaks) leads(p *states.Point, hangs map[int]bool) bool {
	var dead []int
	fed := false
	for i := range hangs {
		if s.c.On(p, i) {
			fed = true
		} else {
			dead = append(dead, s.c.feedNode(i))
		}
	}
	if !fed || len(dead) == 0 {
		return false
	}
	live := s.live(p)
	for _, node := range dead {
		if !live[node] && s.victim(p, node, hangs) {
			return true
		}
	}
	return false
}

// live marks the nodes that sources feed in a position.
func (s *sneaks) live(p *states.Point) map[int]bool {
	var poles []int
	for i := range s.c.Network.Elements {
		if e := &s.c.Network.Elements[i]; e.Kind == network.Source && s.c.givesIn(p, e) {
			poles = append(poles, s.c.Network.Hot(i))
		}
	}
	return s.c.Reach(poles, func(i, from int) bool { return s.c.Passes(p, i, from) })
}

// victim: a load of a dead net that does not hang by the tie.
func (s *sneaks) victim(p *states.Point, node int, hangs map[int]bool) bool {
	for at := range s.c.Reach([]int{node}, func(i, from int) bool { return s.c.Passes(p, i, from) }) {
		for _, i := range s.c.Network.At[at] {
			if s.c.Network.Elements[i].Kind == network.Load && !hangs[i] {
				return true
			}
		}
	}
	return false
}

// open solves a position with a tie open, and finds the load that should be off
// and draws the most of its rated current, or else the wire that carries too
// much.
func (s *sneaks) open(solver *states.Solver, k sneak) (sneak, bool) {
	if s.left -= len(s.c.Network.Elements); s.left < 0 {
		return k, false
	}
	k.after = solver.Solve(k.before.Position)
	if k.after.Failed != nil {
		return k, false
	}
	best := 0.0
	for i := range s.c.Network.Elements {
		if share := s.wrong(k, i); share > best {
			best, k.element, k.amps = share, i, math.Abs(k.after.Amps(i))
		}
	}
	return k, best > 0
}

// wrong is by how much an element goes wrong; 0 where it does not. A load that
// runs counts before any wire, and one that has its own return before those that
// its current passes on the way.
func (s *sneaks) wrong(k sneak, i int) float64 {
	e := &s.c.Network.Elements[i]
	amps := math.Abs(k.after.Amps(i))
	switch {
	case e.Kind == network.Load && !s.c.On(k.before, i) && s.c.On(k.after, i) && e.Load.Sort != "converter":
		const runs, last = 1e6, 1e12
		share := amps / max(s.c.OnFromA(i), 1e-9)
		if k.hangs[i] {
			return runs + share
		}
		return last + share
	case e.Kind == network.Wire:
		if r, ok := s.c.Ampacity(e.Wire); ok && amps > r.Amps && s.c.Survey.Worst[i].Amps <= r.Amps {
			return amps / r.Amps
		}
	}
	return 0
}

// reroute opens a tie that current finds another way round, in the position in
// which it carries the most.
func (s *sneaks) reroute(tie int) {
	const nothing = 1e-3
	w := s.c.Survey.Worst[tie]
	if w.At == nil || w.Amps < nothing || s.left < len(s.c.Network.Elements) {
		return
	}
	before := s.c.Again(w.At)
	solver := states.NewSolver(s.c.Network.Without(tie))
	if k, ok := s.open(solver, sneak{tie: tie, before: before}); ok {
		s.c.reportSneak(k)
	}
}

// wireOf is the first wire of some ties, else the first of them.
func (c *Context) wireOf(ties []int) int {
	for _, i := range ties {
		if c.Network.Elements[i].Wire != nil {
			return i
		}
	}
	return ties[0]
}

// tieAt is a tie's name and where it is declared.
func (c *Context) tieAt(tie int) (string, finding.Place) {
	e := &c.Network.Elements[tie]
	if e.Wire != nil {
		return e.Wire.Name, e.Wire.Origin.Place()
	}
	return e.Device.Name, e.Device.Origin.Place()
}

// alsoTied lists the other ties that lose the same loads, and the loads.
func (c *Context) alsoTied(tie int, h facts.Hanging) []finding.Related {
	const most = 8
	var list []finding.Related
	for _, i := range h.Ties {
		if _, at := c.tieAt(i); i != tie && len(list) < most {
			list = append(list, finding.Related{Place: at, Message: "the same happens where this opens"})
		}
	}
	said := map[*harness.Device]bool{}
	for _, i := range h.Loads {
		if d := c.Network.Elements[i].Device; d != nil && !said[d] && len(list) < most {
			said[d] = true
			list = append(list, finding.Related{Place: d.Origin.Place(), Message: "it loses its return"})
		}
	}
	return list
}

// sneakWay is the way of the current that goes wrong, from a source back to it.
func (c *Context) sneakWay(k sneak) string {
	way, ok := c.Path(k.element, k.after)
	if !ok {
		return "from more than one source"
	}
	var route []int
	for _, s := range way.Feed {
		route = append(route, s.Element)
	}
	route = append(route, way.Load)
	for _, s := range way.Back {
		route = append(route, s.Element)
	}
	words := c.routeWords(c.Network.Hot(way.Source), route)
	return strings.ReplaceAll(words, ", ", " - ")
}
