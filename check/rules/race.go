package rules

import (
	"math"

	"hame/check/faults"
	"hame/check/network"
	"hame/check/protect"
	"hame/check/trip"
	"hame/lang/harness"
	"hame/lang/tables"
)

// slowRace is a device against a wire at one current; run tells how it ends.
type slowRace struct {
	device    *network.Device
	wire      *harness.Wire
	fault     faults.Fault
	amps      float64
	times     trip.Device
	conductor trip.Conductor
	race      trip.Race // once it was run
}

// inTime reports whether the device opens in time: all that is asked of most.
func (s *slowRace) inTime() bool { return s.times.InTime(s.conductor, s.amps) || s.byTrade() }

func (s *slowRace) run() {
	s.race = s.times.Against(s.conductor, s.amps)
	s.race.Protected = s.race.Protected || s.byTrade()
}

// lostBy is how many times too late the device opens.
func (s *slowRace) lostBy() float64 {
	if math.IsInf(s.race.OpensS, 1) {
		return math.Inf(1)
	}
	return s.race.OpensS / max(s.race.WithstandS, 1e-9)
}

// eachRace lets the devices on the way to each wire race it, and hands over the
// race of the one that answers for it, not run yet. Who keeps it copies it: the
// next one comes in its place.
func (c *Context) eachRace(hand func(*slowRace)) {
	var s slowRace
	for _, w := range c.Harness.Wires {
		paths := c.guards(w)
		if len(paths) == 0 {
			continue
		}
		if wire, known := c.Conductor(w); known {
			s.wire, s.conductor = w, wire
			c.racesOf(&s, paths, hand)
		}
	}
}

// fewSources is as many as feed most wires.
const fewSources = 4

// racesOf are those of one wire.
func (c *Context) racesOf(s *slowRace, paths []protect.Path, hand func(*slowRace)) {
	var room [fewSources]faults.Fault
	shorts := c.Faults.AppendAt(room[:0], s.wire)
	for _, p := range paths {
		if c.batteryToo(s.wire, p) {
			continue
		}
		for _, f := range shorts {
			if f.Source != p.Source {
				continue
			}
			var harmless bool
			s.fault = f
			if s.amps, harmless = c.shortAmps(s.wire, f); !harmless && s.quickest(p) {
				hand(s)
			}
		}
	}
}

// byTrade reports whether a link that opens at all is one that the trade's table
// pairs with the wire, or a thinner one: then it is taken to be in time.
func (s *slowRace) byTrade() bool {
	if s.device.Sort != "link" || math.IsInf(s.times.SlowestSeconds(s.amps), 1) {
		return false
	}
	for awg := thickestAWG; awg <= thinnestAWG; awg++ {
		if tables.AWGAreaMM2(awg) <= s.wire.AreaMM2*(1+1e-9) {
			link, _, ok := tables.LinkFor(awg)
			return ok && s.device.LinkMM2 <= tables.AWGAreaMM2(link)*(1+1e-9)
		}
	}
	return false
}

const thickestAWG, thinnestAWG = -3, 30

// batteryToo reports whether a path is that of an alternator or converter, and
// a battery feeds the wire through the same last device.
func (c *Context) batteryToo(w *harness.Wire, p protect.Path) bool {
	if c.Network.Elements[p.Source].Source.Sort == "battery" {
		return false
	}
	for _, other := range c.Protect.Cover(w).Paths {
		if c.Network.Elements[other.Source].Source.Sort == "battery" && !other.Bare && last(other.Chain) == last(p.Chain) {
			return true
		}
	}
	return false
}

// last is the device next to the wire, or nil.
func last(chain []*network.Device) *network.Device {
	if len(chain) == 0 {
		return nil
	}
	return chain[len(chain)-1]
}

// shortAmps is the current to race at. What a source cannot give more of than
// the wire carries lastingly does it no harm.
func (c *Context) shortAmps(w *harness.Wire, f faults.Fault) (amps float64, harmless bool) {
	if c.Network.Elements[f.Source].Source.Sort == "battery" {
		return f.LeastA, false
	}
	r, ok := c.Ampacity(w)
	if ok && f.MostA <= r.Amps {
		return 0, true
	}
	if ok && f.LeastA <= r.Amps {
		return f.MostA, false
	}
	return f.LeastA, false
}

// quickest takes the device that opens first, of those whose times are known;
// false where there is none. Where a fault can get round every device of the
// way, the biggest of them opens last.
func (s *slowRace) quickest(p protect.Path) bool {
	devices, latest := p.Alone, false
	if len(devices) == 0 {
		devices, latest = p.Chain, true
	}
	var bestS float64
	s.device = nil
	for _, d := range devices {
		t, ok := timed(d, d.RatingA)
		if !ok {
			continue
		}
		if opensS := t.SlowestSeconds(s.amps); s.device == nil || latest == (opensS > bestS) {
			s.device, s.times, bestS = d, t, opensS
		}
	}
	return s.device != nil
}
