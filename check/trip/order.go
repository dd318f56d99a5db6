package trip

import (
	"math"
	"slices"

	"hame/lang/tables"
)

// CanOpenFirst tells whether an upstream device may open before the one next
// to the fault: its fastest time is below the other's slowest. Each has its
// own current, because the upstream device carries other loads too.
func CanOpenFirst(upstream Device, upstreamA float64, next Device, nextA float64) bool {
	return upstream.FastestSeconds(upstreamA) < next.SlowestSeconds(nextA)
}

// OutOfOrder gives the least current, up to mostA, at which the next device
// must open but the upstream one, carrying otherA as well, may open first;
// false where there is none. It looks at the gates of both, where the times
// change their slope, and in steps of a tenth between.
func OutOfOrder(upstream Device, otherA float64, next Device, mostA float64) (float64, bool) {
	if !sound(mostA) {
		return 0, false
	}
	var room [trials]float64
	for _, amps := range trialCurrents(room[:0], upstream, otherA, next, mostA) {
		// Most pairs are so far apart that no time need be worked out.
		least, most := upstream.fastestLeast(amps+otherA), next.slowestMost(amps)
		if math.IsInf(most, 1) || least*(1-alike) >= most*(1+alike) {
			continue
		}
		if upstream.FastestSeconds(amps+otherA) < next.SlowestSeconds(amps) {
			return amps, true
		}
	}
	return 0, false
}

const (
	// trials is room for the currents of OutOfOrder.
	trials = 192
	// alike is more than the last digits of a time.
	alike = 1e-9
)

// trialCurrents lists the currents to look at, rising, without those
// at which the upstream device must hold: most of all.
func trialCurrents(list []float64, upstream Device, otherA float64, next Device, mostA float64) []float64 {
	least, holdsA := mostA, upstream.holdsA()
	try := func(amps float64) {
		if amps > 0 && amps <= mostA && !(math.Abs(amps+otherA) < holdsA) {
			list = append(list, amps)
		}
	}
	var room [16]float64
	for _, amps := range next.corners(room[:0]) {
		try(amps)
		least = min(least, amps)
	}
	for _, amps := range upstream.corners(room[:0]) {
		try(amps - otherA)
		least = min(least, amps-otherA)
	}
	if !(least > mostA/1e6) {
		least = mostA / 1e6
	}
	for amps := least; amps < mostA; amps *= 1.1 {
		try(amps)
	}
	try(mostA)
	slices.Sort(list)
	return list
}

// corners adds to a list the currents where the device's times change their slope,
// and for a step a current just past it.
func (d Device) corners(amps []float64) []float64 {
	const past = 1 + 1e-9
	if d.link != nil {
		steady := d.link.steadyA()
		return append(amps, steady*past, 1.05*steady, 1.5*steady, 3*steady, 10*steady)
	}
	for _, g := range d.gates {
		at := g.Percent / 100 * d.ratingA
		amps = append(amps, at, at*past)
	}
	return amps
}

// NeedsInterruptingA gives the interrupting capacity in A that a device needs
// by the cold cranking amperes behind it alone: the first one behind a battery
// (main) or a later one.
func NeedsInterruptingA(crankingA float64, main bool) (float64, tables.Source) {
	first, branch, source := tables.InterruptingA(crankingA)
	if main {
		return first, source
	}
	return branch, source
}

// ProspectiveA gives the current in A of a short behind a resistance in ohm;
// +Inf where nothing limits it.
func ProspectiveA(volts, ohm float64) float64 {
	if ohm <= 0 {
		return math.Inf(1)
	}
	return volts / ohm
}
