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

// slowRace is the race that a device loses by the most.
type slowRace struct {
	device *network.Device
	wire   *harness.Wire
	fault  faults.Fault
	race   trip.Race
}

// lostBy is how many times too late the device opens.
func (s slowRace) lostBy() float64 {
	if math.IsInf(s.race.OpensS, 1) {
		return math.Inf(1)
	}
	return s.race.OpensS / max(s.race.WithstandS, 1e-9)
}

// eachRace lets the devices on the way to each wire race it, and hands over the
// race of the one that answers for it.
func (c *Context) eachRace(hand func(slowRace)) {
	for _, w := range c.Harness.Wires {
		wire, known := c.Conductor(w)
		if !known {
			continue
		}
		shorts := c.Faults.At(w)
		for _, p := range c.guards(w) {
			for _, f := range shorts {
				if f.Source != p.Source || c.batteryToo(w, p) {
					continue
				}
				amps, harmless := c.shortAmps(w, f)
				if best, found := quickest(p, wire, amps); found && !harmless {
					best.wire, best.fault = w, f
					best.race.Protected = best.race.Protected || byTrade(best)
					hand(best)
				}
			}
		}
	}
}

// byTrade reports whether a link that opens at all is one that the trade's table
// pairs with the wire, or a thinner one: then it is taken to be in time.
func byTrade(s slowRace) bool {
	if s.device.Sort != "link" || math.IsInf(s.race.OpensS, 1) {
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

// quickest is the race of the device that opens first. Where a fault can get
// round every device of the way, the biggest of them opens last.
func quickest(p protect.Path, wire trip.Conductor, amps float64) (slowRace, bool) {
	devices, latest := p.Alone, false
	if len(devices) == 0 {
		devices, latest = p.Chain, true
	}
	var best slowRace
	for _, d := range devices {
		t, ok := timed(d, d.RatingA)
		if !ok {
			continue
		}
		r := t.Against(wire, amps)
		if best.device == nil || latest == (r.OpensS > best.race.OpensS) {
			best = slowRace{device: d, race: r}
		}
	}
	return best, best.device != nil
}
