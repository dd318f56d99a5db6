package facts

import (
	"math"

	"hame/check/network"
	"hame/check/states"
)

// unshorted tells positions with a dead short from the others. What flows in one
// hangs on nothing but the short, so the short is all that is said of it: the
// greatest currents of the survey are those of the other positions.
type unshorted struct {
	f     *Facts
	may   bool // a short is possible with every contact closed
	way   DeadWay
	found map[*states.Point]bool
	sound bool // a position without one was seen
	worst []states.Worst
	volts []states.Span
}

func newUnshorted(f *Facts) *unshorted {
	u := &unshorted{f: f, found: map[*states.Point]bool{}}
	u.way, u.may = f.DeadWays(nil)
	if u.may {
		u.worst = make([]states.Worst, len(f.Network.Elements))
		u.volts = make([]states.Span, len(f.Network.Elements))
	}
	return u
}

// Shorted reports whether a position of the survey has a dead short.
func (f *Facts) Shorted(p *states.Point) bool { return f.unshorted.found[p] }

// AnyShorted reports whether any position of the survey has a dead short.
func (f *Facts) AnyShorted() bool { return len(f.unshorted.found) > 0 }

// Judged reports whether any position could be judged: with a short that no
// switch opens, no current is known but the short's.
func (f *Facts) Judged() bool { return !f.unshorted.may || f.unshorted.sound }

// see takes a position in.
func (u *unshorted) see(p *states.Point) {
	if !u.may {
		return
	}
	if _, short := u.f.ShortIn(p); short {
		u.found[p] = true
		return
	}
	u.sound = true
	for i := range u.worst {
		u.take(p, i)
	}
}

func (u *unshorted) take(p *states.Point, i int) {
	amps := p.Amps(i)
	w := &u.worst[i]
	size := math.Abs(amps)
	if size <= nothingA {
		return
	}
	w.AtoB, w.BtoA = max(w.AtoB, amps), max(w.BtoA, -amps)
	if size > w.Amps {
		w.Amps, w.At = size, &p.Position
	}
	if u.f.Network.Elements[i].Kind != network.Load {
		return
	}
	v, s := p.Across(i), &u.volts[i]
	if s.LeastAt == nil || v < s.Least {
		s.Least, s.LeastAt = v, &p.Position
	}
	if s.MostAt == nil || v > s.Most {
		s.Most, s.MostAt = v, &p.Position
	}
}

// into puts what the other positions give in the place of all.
func (u *unshorted) into(s *states.Survey) {
	if len(u.found) > 0 {
		s.Worst, s.Volts = u.worst, u.volts
	}
}
