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
	for _, amps := range trialCurrents(upstream, otherA, next, mostA) {
		if !(amps > 0 && amps <= mostA) {
			continue
		}
		first := upstream.FastestSeconds(amps + otherA)
		if math.IsInf(first, 1) { // it holds, as it does at most currents
			continue
		}
		if last := next.SlowestSeconds(amps); !math.IsInf(last, 1) && first < last {
			return amps, true
		}
	}
	return 0, false
}

// trialCurrents lists the currents to look at, rising.
func trialCurrents(upstream Device, otherA float64, next Device, mostA float64) []float64 {
	currents := append(next.corners(), mostA)
	for _, amps := range upstream.corners() {
		currents = append(currents, amps-otherA)
	}
	amps := slices.Min(currents)
	if !(amps > mostA/1e6) {
		amps = mostA / 1e6
	}
	for ; amps < mostA; amps *= 1.1 {
		currents = append(currents, amps)
	}
	slices.Sort(currents)
	return currents
}

// corners lists the currents where the device's times change their slope, and
// for a step a current just past it.
func (d Device) corners() []float64 {
	const past = 1 + 1e-9
	if d.link != nil {
		steady := d.link.steadyA()
		return []float64{steady * past, 1.05 * steady, 1.5 * steady, 3 * steady, 10 * steady}
	}
	var amps []float64
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
