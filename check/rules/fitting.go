package rules

import (
	"slices"
	"strconv"

	"hame/check/network"
	"hame/check/trip"
	"hame/lang/finding"
	"hame/lang/tables"
)

// fitting is what every rule asks of a device's rating, so that a fix for one
// of them breaks no other.
type fitting struct {
	c        *Context
	elements map[*network.Device]int
	ceilings map[*network.Device]float64
	shorts   map[*network.Device][]short
	starts   map[*network.Device][]start
	stalls   map[*network.Device][]float64
	pairs    map[*network.Device][]*pair
}

// short is a conductor that a device answers for, and the least current of a
// short at its end.
type short struct {
	wire trip.Conductor
	amps float64
}

// newFitting gathers what the devices answer for.
func (c *Context) newFitting() *fitting {
	f := &fitting{
		c: c, elements: c.elementsOfDevices(), ceilings: c.ceilings(), shorts: map[*network.Device][]short{},
		starts: map[*network.Device][]start{}, stalls: map[*network.Device][]float64{}, pairs: map[*network.Device][]*pair{},
	}
	c.eachRace(func(s *slowRace) {
		f.shorts[s.device] = append(f.shorts[s.device], short{s.conductor, s.amps})
	})
	c.eachStart(func(d *network.Device, s start) { f.starts[d] = append(f.starts[d], s) })
	c.eachStall(func(s stall) { f.stalls[s.device] = append(f.stalls[s.device], s.amps) })
	for _, x := range c.pairs() {
		x.otherA = max(0, c.Survey.Worst[x.first].Amps-c.Survey.Worst[x.next].Amps)
		for _, i := range []int{x.first, x.next} {
			d := c.Network.Elements[i].Fuse
			f.pairs[d] = append(f.pairs[d], x)
		}
	}
	return f
}

// refit changes a device's rating to the smallest that its family is made in
// and that every rule allows. Nil where there is none, or where the rating is a
// part's and not the device's own to change.
func (f *fitting) refit(d *network.Device) *finding.Fix {
	family, ok := familyOf(d)
	span, own := ratingSpan(d)
	if !ok || !own {
		return nil
	}
	slices.Sort(family.RatingsA)
	for _, r := range family.RatingsA {
		if r != d.RatingA && f.suits(d, r) && f.addsLittle(d, r) {
			text := strconv.FormatFloat(r, 'f', -1, 64) + " A"
			return &finding.Fix{
				Title: "make `" + d.Name + "` " + text,
				Edits: []finding.Edit{{Place: span, Text: text}},
			}
		}
	}
	return nil
}

// addsLittle reports whether a device of another rating keeps its load's volts
// about where they are: a small fuse has a tenth of an ohm, and the drop is then
// the next thing that is found.
func (f *fitting) addsLittle(d *network.Device, ratingA float64) bool {
	const share = 0.0025 // of the system's volts; ours, no source
	ohm := tables.FuseOhm
	if d.Sort == "breaker" {
		ohm = tables.BreakerOhm
	}
	now, _ := ohm(d.RatingA)
	then, _ := ohm(ratingA)
	return (then-now)*f.c.Survey.Worst[f.elements[d]].Amps <= share*f.c.Harness.SystemV
}

// suits reports whether a device of a rating would carry its load, protect what
// lies behind, last out the starts, end the stalls and keep its order.
func (f *fitting) suits(d *network.Device, ratingA float64) bool {
	t, ok := timed(d, ratingA)
	most, bounded := f.ceilings[d]
	if !ok || bounded && ratingA > most*(1+1e-9) {
		return false
	}
	return f.c.carriesSteadily(d, ratingA, f.c.Survey.Worst[f.elements[d]].Amps) &&
		f.inTime(d, t) && f.keepsOrder(d, ratingA)
}

// inTime asks the times of a device.
func (f *fitting) inTime(d *network.Device, t trip.Device) bool {
	for _, s := range f.shorts[d] {
		if !t.InTime(s.wire, s.amps) {
			return false
		}
	}
	for _, s := range f.starts[d] {
		if t.FastestKnown() && !holdsOut(t, s) {
			return false
		}
	}
	l, limited := f.c.Practice.Limit("stall", "")
	for _, amps := range f.stalls[d] {
		if limited && t.SlowestSeconds(amps) > l.Value {
			return false
		}
	}
	return true
}

// keepsOrder reports whether a device of another rating would be in order with
// those ahead of it and behind it.
func (f *fitting) keepsOrder(d *network.Device, ratingA float64) bool {
	for _, x := range f.pairs[d] {
		first, next := *f.c.Network.Elements[x.first].Fuse, *f.c.Network.Elements[x.next].Fuse
		if f.c.Network.Elements[x.first].Fuse == d {
			first.RatingA = ratingA
		} else {
			next.RatingA = ratingA
		}
		if _, broken := f.c.upsetAt(x, &first, &next); broken {
			return false
		}
	}
	return true
}
