package trip

import (
	"math"
	"slices"
	"sync"

	"hame/lang/tables"
)

// Device is a fuse, a breaker or a fusible link of one rating. The zero value
// never opens.
type Device struct {
	ratingA  float64
	gates    []tables.Gate
	holds    float64 // the greatest share of the rating in % at which the gates let none open; +Inf where they let none at any
	link     *link
	recloses bool
	standIn  bool
}

// NewFuse makes a fuse of a family of the language (blade, mini …); false
// where there is no such family or the rating isn't above zero.
func NewFuse(family string, ratingA float64) (Device, bool) {
	f, ok := familyOf(family, tables.Fuse)
	return f.device(ratingA), ok && sound(ratingA)
}

// NewBreaker makes a breaker by its reset: auto, power or manual.
func NewBreaker(reset string, ratingA float64) (Device, bool) {
	f, ok := familyOf("breaker "+reset, func(string) (tables.FuseFamily, bool) { return tables.Breaker(reset) })
	d := f.device(ratingA)
	d.recloses = reset == "auto"
	return d, ok && sound(ratingA)
}

// family is what the devices of a family have in common.
type family struct {
	gates   []tables.Gate
	holds   float64 // see Device
	standIn bool
}

// families are those that were asked for, by name: every wire asks for several,
// and the tables copy what they answer with.
var families sync.Map

func familyOf(name string, find func(string) (tables.FuseFamily, bool)) (family, bool) {
	if kept, ok := families.Load(name); ok {
		return kept.(family), true
	}
	f, ok := find(name)
	gates := f.Gates()
	made := family{gates, holdsPercent(gates), f.GatesStandIn}
	if ok {
		families.Store(name, made)
	}
	return made, ok
}

func (f family) device(ratingA float64) Device {
	return Device{ratingA: ratingA, gates: f.gates, holds: f.holds, standIn: f.standIn}
}

func sound(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// Recloses tells whether the device closes again by itself on a fault that
// still stands (a breaker of SAE J553 type I).
func (d Device) Recloses() bool { return d.recloses }

// StandIn tells whether the gates are those of the nearest family, because
// none are known for the device's own.
func (d Device) StandIn() bool { return d.standIn }

// Source says where the device's times come from.
func (d Device) Source() tables.Source {
	switch {
	case d.link != nil:
		return tables.ConstantSource("onderdonk_divisor")
	case len(d.gates) > 0:
		return d.gates[0].Source
	}
	return tables.Source{}
}

// FastestKnown tells whether the standard sets a least time. For breakers and
// glass fuses it doesn't: FastestSeconds is then 0 as soon as they may open.
func (d Device) FastestKnown() bool {
	return d.link != nil || len(d.gates) > 0 && d.gates[len(d.gates)-1].MinS > 0
}

// SlowestSeconds gives the longest that the device may take to open at a
// current; +Inf where it may hold. Not a number counts as no current.
func (d Device) SlowestSeconds(amps float64) float64 {
	if d.link != nil {
		return d.link.slowest(math.Abs(amps))
	}
	return along(d.gates, d.percent(amps), slowest)
}

// FastestSeconds gives the shortest after which the device may open at a
// current; +Inf where it must hold.
func (d Device) FastestSeconds(amps float64) float64 {
	if d.link != nil {
		return d.link.fastest(math.Abs(amps))
	}
	percent := d.percent(amps)
	if d.mustHold(percent) {
		return math.Inf(1)
	}
	return along(d.gates, percent, fastest)
}

func slowest(g *tables.Gate) float64 { return g.MaxS }

func fastest(g *tables.Gate) float64 { return g.MinS }

// mustHold tells whether the gates let no device open at a share of its rating.
func (d Device) mustHold(percent float64) bool { return !(percent > d.holds) }

// holdsPercent is the greatest share of the rating at which gates let no device
// open; +Inf where they let none at any.
func holdsPercent(gates []tables.Gate) float64 {
	i := slices.IndexFunc(gates, mustOpen)
	if i <= 0 {
		return math.Inf(1)
	}
	return gates[i-1].Percent
}

// holdsA is a current below which the device must hold.
func (d Device) holdsA() float64 {
	if d.link != nil {
		return d.link.steadyA()
	}
	const digits = 1 - 1e-9
	return d.holds / 100 * d.ratingA * digits
}

// fastestLeast is no more than FastestSeconds, and +Inf where that is: one of
// the figures that it lies between, without the way between them.
func (d Device) fastestLeast(amps float64) float64 {
	if d.link != nil {
		return d.link.fastest(math.Abs(amps))
	}
	percent := d.percent(amps)
	if d.mustHold(percent) {
		return math.Inf(1)
	}
	least, _ := span(d.gates, percent, fastest)
	return least
}

// slowestMost is no less than SlowestSeconds.
func (d Device) slowestMost(amps float64) float64 {
	if d.link != nil {
		return d.link.slowest(math.Abs(amps))
	}
	_, most := span(d.gates, d.percent(amps), slowest)
	return most
}

// mustOpen tells whether a gate sets a longest time at all.
func mustOpen(g tables.Gate) bool { return !math.IsInf(g.MaxS, 1) }

// percent is a current's share of the rating.
func (d Device) percent(amps float64) float64 {
	if !sound(d.ratingA) || math.IsNaN(amps) {
		return 0
	}
	return 100 * math.Abs(amps) / d.ratingA
}

// along reads one edge of the gates at a share of the rating.
func along(gates []tables.Gate, percent float64, edge func(*tables.Gate) float64) float64 {
	i := gateAbove(gates, percent)
	switch {
	case i == 0:
		return math.Inf(1)
	case i == len(gates):
		return beyond(&gates[i-1], percent, edge)
	}
	return logLog(gates[i-1].Percent, edge(&gates[i-1]), gates[i].Percent, edge(&gates[i]), percent)
}

// gateAbove is the first gate above a share of the rating; their number where
// there is none.
func gateAbove(gates []tables.Gate, percent float64) int {
	i := 0
	for i < len(gates) && !(percent < gates[i].Percent) {
		i++
	}
	return i
}

// beyond is past the last gate, where the let-through I2t holds.
func beyond(last *tables.Gate, percent float64, edge func(*tables.Gate) float64) float64 {
	share := last.Percent / percent
	return edge(last) * share * share
}

// span is what along lies between, but for its last digits.
func span(gates []tables.Gate, percent float64, edge func(*tables.Gate) float64) (least, most float64) {
	i := gateAbove(gates, percent)
	switch {
	case i == 0:
		return math.Inf(1), math.Inf(1)
	case i == len(gates):
		s := beyond(&gates[i-1], percent, edge)
		return s, s
	}
	below, above := edge(&gates[i-1]), edge(&gates[i])
	if math.IsInf(below, 1) {
		return below, below
	}
	return min(below, above), max(below, above)
}

// logLog draws a straight line on logarithms. From a gate without an upper
// time nothing must open before the next; to or from a gate without a lower
// time anything may.
func logLog(x0, y0, x1, y1, x float64) float64 {
	switch {
	case math.IsInf(y0, 1):
		return y0
	case y0 == 0 || y1 == 0:
		return 0
	}
	share := math.Log(x/x0) / math.Log(x1/x0)
	return y0 * math.Pow(y1/y0, share)
}

// LetThroughA2S gives the most I2t in A2 s that the device lets through at a
// current; +Inf where it may hold.
func (d Device) LetThroughA2S(amps float64) float64 {
	return i2t(amps, d.SlowestSeconds(amps))
}

// i2t is current squared times time; without current none, however long.
func i2t(amps, seconds float64) float64 {
	if amps == 0 {
		return 0
	}
	return amps * amps * seconds
}

// SlowestSeconds is Device.SlowestSeconds of a fuse family and rating; NaN
// where there is no such fuse.
func SlowestSeconds(family string, ratingA, amps float64) float64 {
	d, ok := NewFuse(family, ratingA)
	if !ok {
		return math.NaN()
	}
	return d.SlowestSeconds(amps)
}

// FastestSeconds is Device.FastestSeconds of a fuse family and rating; NaN
// where there is no such fuse.
func FastestSeconds(family string, ratingA, amps float64) float64 {
	d, ok := NewFuse(family, ratingA)
	if !ok {
		return math.NaN()
	}
	return d.FastestSeconds(amps)
}
