package rules

import (
	"fmt"
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// contact is one contact and what its loads ask of it at worst.
type contact struct {
	element  int
	device   *harness.Device
	ratingA  float64
	ratedFor string
	systemV  float64     // that its column of the table goes by
	charging float64     // the factor of what charges a battery
	far      [2]int      // the node whose loads a current from A to B goes to, and one from B to A; -1 for all loads
	behind   [2][]burden // those loads, once they are asked for
	known    [2]bool
	asksA    float64 // current times factor
	point    *states.Point
	bounded  bool // asksA is a bound, and point comes nearest
}

// burden is a load behind a contact, and how many times its current counts.
type burden struct {
	element int
	factor  float64
}

// ratingOf is the setting that rates a switch's contacts.
func ratingOf(d *harness.Device) string {
	if d.Is(kinds.Switch, "relay") {
		return "contacts"
	}
	return "rating"
}

func (c *Context) newContact(i int, rails *facts.Rails) *contact {
	e := &c.Network.Elements[i]
	x := &contact{element: i, device: e.Device, ratedFor: e.Device.Word("for"), systemV: c.railV(e, rails)}
	x.ratingA, _ = e.Device.SI(ratingOf(e.Device))
	x.charging, _ = x.factor("charging")
	x.far = [2]int{e.B, e.A}
	switch returnA, returnB := c.Network.Return(e.A), c.Network.Return(e.B); {
	case returnA && returnB: // a battery's negative: all that returns by it
		x.far = [2]int{-1, -1}
	case returnB: // in a return: the loads ahead of it
		x.far[0] = e.A
	case returnA:
		x.far[1] = e.B
	}
	return x
}

// towards lists the loads on the side that a current flows to.
func (x *contact) towards(c *Context, amps float64) []burden {
	k := 0
	if amps < 0 {
		k = 1
	}
	if !x.known[k] {
		x.known[k] = true
		list := c.loads
		if x.far[k] >= 0 {
			list = func() []int { return c.Beyond(x.far[k], x.element) }
		}
		x.behind[k] = x.burdens(c, list())
	}
	return x.behind[k]
}

// burdens gives loads their factors.
func (x *contact) burdens(c *Context, loads []int) []burden {
	list := make([]burden, len(loads))
	for k, i := range loads {
		list[k].element = i
		list[k].factor, _ = x.factor(c.Network.Elements[i].Load.Sort)
	}
	return list
}

// railV is the system's volts where a contact works: a converter's own on its
// rail, the harness's elsewhere.
func (c *Context) railV(e *network.Element, rails *facts.Rails) float64 {
	volts := 0.0
	for _, node := range []int{e.A, e.B} {
		if c.Network.Return(node) {
			continue
		}
		for _, i := range rails.Of(node) {
			s := &c.Network.Elements[i]
			if s.Source.Sort != "converter" {
				return c.Harness.SystemV
			}
			volts = max(volts, c.nominal(s))
		}
	}
	if volts == 0 {
		return c.Harness.SystemV
	}
	return volts
}

// factor is how many times a kind of load's current counts.
func (x *contact) factor(sort string) (float64, tables.Source) {
	const tableEndsV = 28
	v, s, _ := facts.ContactFactor(sort, x.ratedFor, min(x.systemV, tableEndsV))
	return v, s
}

// see takes a position in. What is nothing but the solver's last digits has no
// direction, and so no loads that it goes to.
func (x *contact) see(c *Context, p *states.Point) {
	const nothing = 1e-6
	amps := p.Amps(x.element)
	if math.Abs(amps) < nothing {
		return
	}
	if asks := x.asks(c, p, amps); asks > x.asksA {
		x.asksA, x.point = asks, p
	}
}

// asks is the current times the mean factor of the loads that it goes to; what
// goes to none of them charges a battery.
func (x *contact) asks(c *Context, p *states.Point, amps float64) float64 {
	sum, weighted := 0.0, 0.0
	for _, b := range x.towards(c, amps) {
		a := math.Abs(p.Amps(b.element))
		sum, weighted = sum+a, weighted+a*b.factor
	}
	through := math.Abs(amps)
	if sum > through {
		return weighted * through / sum
	}
	return weighted + (through-sum)*x.charging
}

// bound lifts what was seen to what can be, where the positions were too many
// to solve each: by the contact's own bound, and by those of its loads.
func (x *contact) bound(c *Context) {
	w := &c.Survey.Worst[x.element]
	if !w.Bound || x.point == nil {
		return
	}
	most, sum := 0.0, 0.0
	for _, b := range x.towards(c, x.point.Amps(x.element)) {
		most, sum = max(most, b.factor), sum+b.factor*c.Survey.Worst[b.element].Amps
	}
	if b := min(sum, most*w.Amps); b > x.asksA {
		x.asksA, x.bounded = b, true
	}
}

func (c *Context) overloadedContact(x *contact) {
	d := x.device
	through := math.Abs(x.point.Amps(x.element))
	f := finding.Finding{
		At: d.Origin.Place(), Subject: d.Name, Mode: c.statedName(x.point),
		Message:  fmt.Sprintf("`%s` switches %s, which asks %s of a contact rated %s (%s)", d.Name, amps(through), amps(x.asksA), amps(x.ratingA), x.ratedFor),
		Figures:  append(c.contactLoads(x), "worst position: "+where(x.point.Position.Figure())),
		Measured: &x.asksA, Limit: &x.ratingA, Unit: "A", Source: x.origin(c),
	}
	if x.bounded {
		f.Figures = append(f.Figures, "a bound over all positions: no position that was solved comes to more than it")
	}
	f.Figures = append(f.Figures, "take a contact rated for its loads, or let it work a relay that is")
	c.Report(f)
}

// contactLoads lists what a contact feeds where it is worst: "spot (bulb): 4.58
// A × 5".
func (c *Context) contactLoads(x *contact) []string {
	const most = 6
	var list []string
	more := 0
	for _, b := range x.towards(c, x.point.Amps(x.element)) {
		e := &c.Network.Elements[b.element]
		a := math.Abs(x.point.Amps(b.element))
		switch {
		case a < 1e-6:
		case len(list) == most:
			more++
		default:
			list = append(list, fmt.Sprintf("`%s` (%s): %s × %s", e.Name, e.Load.Sort, amps(a), number(b.factor)))
		}
	}
	if more > 0 {
		list = append(list, fmt.Sprintf("and %d loads more", more))
	}
	return list
}

// origin is the source of the greatest factor that counts.
func (x *contact) origin(c *Context) string {
	best, origin := 0.0, tables.Source{}
	for _, b := range x.towards(c, x.point.Amps(x.element)) {
		if math.Abs(x.point.Amps(b.element)) < 1e-6 {
			continue
		}
		if f, s := x.factor(c.Network.Elements[b.element].Load.Sort); f > best {
			best, origin = f, s
		}
	}
	if best == 0 {
		_, origin = x.factor("charging")
	}
	return source(origin)
}
