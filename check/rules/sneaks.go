package rules

import (
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
)

// sneaks looks for what goes wrong when returns open, within its work.
type sneaks struct {
	c      *Context
	points []*states.Point
	left   int     // work, in elements solved
	looks  int     // and in nodes looked at for a way
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
// have a way to feed another, and reports the first sneak. Where the work is
// done that may be, the way alone is reported.
func (s *sneaks) search(h facts.Hanging) {
	if s.looks -= len(h.Loads); s.looks < 0 {
		return
	}
	hangs := map[int]bool{}
	for _, i := range h.Loads {
		hangs[i] = true
	}
	k := sneak{tie: s.c.wireOf(h.Ties), hangs: hangs}
	k.related = s.c.alsoTied(k.tie, h)
	var solver *states.Solver
	for _, p := range s.points {
		if s.looks -= len(h.Loads); s.looks < 0 {
			return
		}
		lead, ok := s.leads(p, h.Loads, hangs)
		if !ok {
			continue
		}
		k.before = p
		if s.left < len(s.c.Network.Elements) {
			s.c.reportLead(k, lead)
			return
		}
		if solver == nil {
			solver = states.NewSolver(s.c.openedAt(k.tie))
		}
		if k, ok = s.open(solver, k); ok {
			s.found = append(s.found, h.Loads)
			s.c.reportSneak(k)
			return
		}
	}
}

// lead is a way that a current has once a tie is open: from a load that is on,
// backwards through one that is off, to a third on the same feed.
type lead struct{ on, off, runs int }

// leads finds, in a position, a hanging load that is fed and another in a dead
// net with a load that returns elsewhere.
func (s *sneaks) leads(p *states.Point, loads []int, hangs map[int]bool) (lead, bool) {
	l := lead{on: -1}
	var off []int
	for _, i := range loads {
		switch {
		case !s.c.On(p, i):
			off = append(off, i)
		case l.on < 0:
			l.on = i
		}
	}
	if l.on < 0 || len(off) == 0 {
		return l, false
	}
	for _, l.off = range off {
		if l.runs = s.victim(p, s.c.feedNode(l.off), hangs); l.runs >= 0 {
			return l, true
		}
	}
	return l, false
}

// victim is the first load that does not hang by the tie, of the net that a node
// lies in; -1 where there is none or a source holds the net.
func (s *sneaks) victim(p *states.Point, node int, hangs map[int]bool) int {
	first, looked := -1, 0
	_, live := s.c.Route(node, func(at int) bool {
		looked++
		for _, i := range s.c.Network.At[at] {
			if s.c.Network.Elements[i].Kind == network.Load && !hangs[i] && (first < 0 || i < first) {
				first = i
			}
		}
		return s.c.liveIn(p, at)
	}, func(i, from int) bool { return s.c.Passes(p, i, from) })
	s.looks -= looked
	if live {
		return -1
	}
	return first
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
		if r := s.c.Wire(e.Wire).Ampacity; r != nil && amps > r.Amps && s.c.Survey.Worst[i].Amps <= r.Amps {
			return amps / r.Amps
		}
	}
	return 0
}

// reroute opens the ties that current finds another way round, each in the
// position in which it carries the most, where that is more than another of them
// may carry.
func (s *sneaks) reroute(looped []int) {
	elements := len(s.c.Network.Elements)
	var whole *states.Solver
	for _, tie := range looped {
		w := s.c.Survey.Worst[tie]
		if w.At == nil || elements > sneakWhole || !s.c.weaker(looped, tie, w.Amps) {
			continue
		}
		if s.left -= 2 * elements; s.left < elements { // with what it takes to make ready
			return
		}
		if whole == nil {
			whole = states.NewSolver(s.c.Network)
		}
		k := sneak{tie: tie, before: whole.Solve(*w.At)}
		if k, ok := s.open(states.NewSolver(s.c.openedAt(tie)), k); ok {
			s.c.reportSneak(k)
		}
	}
}
