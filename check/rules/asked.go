package rules

import (
	"hame/check/facts"
	"hame/check/faults"
	"hame/check/network"
	"hame/check/states"
	"hame/check/trip"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// Asked answers papers by what the rules judge by, so that no paper says another
// thing than a finding.
type Asked struct{ c *Context }

// Ask is for one harness, once its facts stand.
func Ask(f *facts.Facts) Asked { return Asked{&Context{Facts: f, shared: newShared(f), rule: &Rule{}}} }

// Breaking is a short right behind a protective device against what that can
// interrupt. A figure that is not known is nil.
type Breaking struct {
	ProspectiveA *float64
	How          string        // how that comes about
	CanA         *float64      // what the device can interrupt
	By           string        // by whose word
	Lacks        *finding.Need // the fact that the prospective current waits for
	Borrowed     bool          // a borrowed circuit's own device: not judged
	Tolerated    bool          // more than it can, and taken for a warning
}

// Breaking is a protective device's; false where no source feeds it.
func (a Asked) Breaking(element int) (Breaking, bool) {
	b, fed := a.c.prospective(element)
	if !fed {
		return Breaking{}, false
	}
	out := Breaking{How: b.how(), Lacks: b.lacks, Borrowed: tapped(b.device)}
	if b.lacks == nil {
		out.ProspectiveA = &b.amps
		out.How += "; " + b.source()
	}
	if limit, origin, ok := capacity(b.device, b.systemV); ok {
		out.CanA, out.By = &limit, origin
		out.Tolerated = b.lacks == nil && b.amps > limit && b.tolerated(limit)
	}
	return out, true
}

// SteadyShare is the share of its rating, of 1, that a protective device may
// carry lastingly where it sits.
func (a Asked) SteadyShare(d *network.Device) (float64, tables.Source) {
	l := a.c.steadyLimit(d)
	return l.Value / 100, l.Source
}

// Weak is the weakest that a device alone protects: a wire, or a load's pigtail.
type Weak struct {
	Name   string
	Wire   *harness.Wire // nil of a pigtail
	Rating tables.Rating
}

// Weakest lists, by device, the weakest that it alone protects. A device behind
// which no ampacity is known has none.
func (a Asked) Weakest() map[*network.Device]Weak {
	out := map[*network.Device]Weak{}
	for d, g := range a.c.weakest() {
		out[d] = Weak{g.name(), g.wire, a.c.rating(g)}
	}
	return out
}

// Race is a device against the copper of a wire, at the least current of a short
// at the wire's far end.
type Race struct {
	Wire  *harness.Wire
	Fault faults.Fault
	trip.Race
}

// Farthest lists, by device, the race at the least current of all wires that it
// opens for: that of the farthest protected end; of a device that opens too late
// for one, the race that it loses by the most. Where a fact that a current hangs
// on is not known, the race is left out, and the fact is in lacks.
func (a Asked) Farthest() (races map[*network.Device]Race, lacks map[*network.Device]finding.Need) {
	races, lacks = map[*network.Device]Race{}, map[*network.Device]finding.Need{}
	shown := map[*network.Device]slowRace{}
	a.c.eachRace(func(s *slowRace) {
		if need := s.fault.LeastLacks; need != nil {
			if _, said := lacks[s.device]; !said {
				lacks[s.device] = *need
			}
			return
		}
		s.run()
		if old, ok := shown[s.device]; !ok || s.before(&old) {
			shown[s.device] = *s
			races[s.device] = Race{s.wire, s.fault, s.race}
		}
	})
	return races, lacks
}

// before: a race that is lost comes before one that is won.
func (s *slowRace) before(o *slowRace) bool {
	switch {
	case s.race.Protected != o.race.Protected:
		return o.race.Protected
	case !s.race.Protected:
		return s.lostBy() > o.lostBy()
	}
	return s.race.Amps < o.race.Amps
}

// Contact is what is asked of a contact at worst, each load's current times the
// factor of its kind, and what it is rated for.
type Contact struct {
	AsksA   float64
	Bound   bool // it asks no more; no position that was solved comes to it
	RatingA *float64
	For     string // the kind of load that the rating is given for
}

// Contact is a switch's or relay's contact at its greatest current. A starter's
// seconds count, but not for an isolator, which is not thrown under it.
func (a Asked) Contact(element int, rails *facts.Rails) Contact {
	x := a.c.newContact(element, rails)
	out := Contact{For: x.ratedFor}
	if x.ratingA > 0 {
		out.RatingA = &x.ratingA
	}
	currents := func(i int) states.Worst { return a.c.Survey.Worst[i] }
	if x.device.Is(kinds.Switch, "isolator") {
		currents = a.c.Steady
	}
	worst := currents(element)
	if worst.At == nil {
		return out
	}
	p := a.c.Again(worst.At)
	amps := p.Amps(element)
	seen := 0.0
	if amps != 0 {
		seen = x.asks(a.c, p, amps)
	}
	out.AsksA = a.mostAsked(x, worst.Amps, amps, currents)
	const alike = 1e-3
	if out.AsksA <= seen*(1+alike) {
		out.AsksA = seen
	} else {
		out.Bound = true
	}
	return out
}

// mostAsked is no less than any position asks: its loads' own greatest currents
// with their factors, or its own current with the greatest of them.
func (a Asked) mostAsked(x *contact, through, direction float64, currents func(int) states.Worst) float64 {
	most, sum, loads := 0.0, 0.0, 0.0
	for _, b := range x.towards(a.c, direction) {
		amps := currents(b.element).Amps
		if amps > 0 {
			most = max(most, b.factor)
		}
		sum, loads = sum+b.factor*amps, loads+amps
	}
	if through > loads { // the rest charges a battery
		sum += (through - loads) * x.charging
		most = max(most, x.charging)
	}
	return min(sum, most*through)
}

// RingsHeld is how many rings a stud holds, and by whose word; false where
// nobody says.
func (a Asked) RingsHeld(d *harness.Device) (float64, string, bool) { return a.c.holds(d) }

// Metal reports whether a terminal is metal that a tool can touch, a cover left
// out: a post, a stud, a bus, a panel's feed.
func (a Asked) Metal(t *harness.Terminal) bool { return exposedMetal(t) }

// AlwaysLive reports whether a terminal is live with every switch open.
func (a Asked) AlwaysLive(t *harness.Terminal) bool { return a.c.alwaysLive(t.Index) }
