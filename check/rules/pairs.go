package rules

import (
	"slices"

	"hame/check/faults"
	"hame/check/network"
	"hame/check/protect"
	"hame/check/trip"
	"hame/lang/finding"
)

// pair is two devices in series, the second right behind the first.
type pair struct {
	first, next int     // elements
	sources     []int   // elements
	otherA      float64 // the most that the other loads behind the first draw
}

// pairs lists the devices that follow each other on a way from a source, with
// nothing to get round either.
func (c *Context) pairs() []*pair {
	of, seen := c.elementsOfDevices(), map[[2]*network.Device]*pair{}
	var list []*pair
	for _, w := range c.Harness.Wires {
		paths := c.guards(w)
		for _, p := range paths {
			n, m := len(p.Chain), len(p.Alone)
			if n < 2 || m < 2 || p.Chain[n-1] != p.Alone[m-1] || p.Chain[n-2] != p.Alone[m-2] {
				continue
			}
			key := [2]*network.Device{p.Chain[n-2], p.Chain[n-1]}
			if c.otherwiseFed(paths, key[0]) {
				continue
			}
			x := seen[key]
			if x == nil {
				x = &pair{first: of[key[0]], next: of[key[1]]}
				seen[key], list = x, append(list, x)
			}
			if !slices.Contains(x.sources, p.Source) {
				x.sources = append(x.sources, p.Source)
			}
		}
	}
	return list
}

// otherwiseFed reports whether, of the ways to a wire, a battery feeds a short on
// it past a device: that one opening first parts nothing, and the current behind
// is more.
func (c *Context) otherwiseFed(paths []protect.Path, past *network.Device) bool {
	for _, p := range paths {
		if c.Network.Elements[p.Source].Source.Sort == "battery" && !slices.Contains(p.Chain, past) {
			return true
		}
	}
	return false
}

// disorderAt is where a pair is out of order.
type disorderAt struct {
	amps   float64 // the least fault current
	otherA float64 // what the other loads add to it
	lacks  *finding.Need
}

// upsetAt says where a pair is out of order, its devices being those given.
func (c *Context) upsetAt(x *pair, first, next *network.Device) (disorderAt, bool) {
	up, okUp := timed(first, first.RatingA)
	down, okDown := timed(next, next.RatingA)
	if !okUp || !okDown {
		return disorderAt{}, false
	}
	mostA, otherA, lacks := c.mostThrough(x)
	amps, broken := upset(up, first, otherA, down, next, mostA)
	return disorderAt{amps, otherA, lacks}, broken
}

// upset is trip.OutOfOrder, where the first device's fastest time is known.
// Where it is not, only a rating that is no bigger than the next one's is out of
// order, from the current at which that one must open.
func upset(up trip.Device, first *network.Device, otherA float64, down trip.Device, next *network.Device, mostA float64) (float64, bool) {
	if up.FastestKnown() {
		return trip.OutOfOrder(up, otherA, down, mostA)
	}
	const mustOpen = 1.35 // the gate of all families
	return mustOpen * next.RatingA, next.RatingA > 0 && first.RatingA <= next.RatingA
}

// mostThrough is the greatest current that goes through both devices of a pair
// into a short right behind the second, of all the sources that feed it so, and
// what the other loads add. Where a fact is lacking, it is more than flows
// anywhere. Where no battery is among the sources, all that they give goes into
// the short, and nothing to other loads.
func (c *Context) mostThrough(x *pair) (amps, otherA float64, lacks *finding.Need) {
	var room [fewSources]faults.Fault
	for _, f := range c.Faults.AppendBehind(room[:0], x.next) {
		if !slices.Contains(x.sources, f.Source) {
			continue
		}
		amps += f.MostA
		if c.Network.Elements[f.Source].Source.Sort == "battery" {
			otherA = x.otherA
		}
		if lacks == nil {
			lacks = f.MostLacks
		}
	}
	if lacks != nil {
		const anyA = 100e3
		amps = anyA
	}
	return amps, otherA, lacks
}
