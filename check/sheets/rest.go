package sheets

import (
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// liveLeastV is the least volts against the return that count as live: below it
// lies what is lost on a return.
const liveLeastV = 1

// live reports whether a node stands under voltage in a solved position.
func (p *Pack) live(at *states.Point, node int) bool {
	grounds := p.Facts.Network.Grounds()
	if at.Failed != nil || len(grounds) == 0 || !at.Alive(node) || p.Facts.Network.Return(node) {
		return false
	}
	return math.Abs(at.Volts(node)-at.Volts(grounds[0])) > liveLeastV
}

// atRest is the machine left by its key, every switch open. Nil where that
// position cannot be solved, or has a dead short.
func (p *Pack) atRest() *states.Point {
	at := p.Facts.Again(&states.Position{Key: "off", Engine: "off", Corner: states.ColdFull, Charge: 1})
	if _, short := p.Facts.ShortIn(at); short || at.Failed != nil {
		return nil
	}
	return at
}

// unswitched reports whether a device has a live terminal at rest: nothing but
// taking the battery off makes it dead.
func (p *Pack) unswitched(rest *states.Point, d *harness.Device) bool {
	return rest != nil && slices.ContainsFunc(d.Terminals, func(t *harness.Terminal) bool { return p.live(rest, t.Index) })
}

// keyed are the positions of the key as a connector is pulled in them, every
// switch closed.
type keyed struct {
	key    string
	points []*states.Point
}

// keyPoints solves the machine with the key in each of its positions: switches
// of two throws on the one and on the other.
func (p *Pack) keyPoints() []keyed {
	list := []keyed{{key: "off"}, {key: "acc"}, {key: "on"}}
	for i := range list {
		for _, throw := range []int{1, 2} {
			list[i].points = append(list[i].points, p.withKey(list[i].key, "off", throw))
		}
	}
	list[2].points = append(list[2].points, p.withKey("on", "running", 1), p.withKey("on", "running", 2))
	return list
}

func (p *Pack) withKey(key, engine string, throw int) *states.Point {
	throws := map[*harness.Device]int{}
	for _, d := range p.Harness.Devices {
		if d.Is(kinds.Switch, "toggle", "push", "isolator") {
			throws[d] = 1
			if n, ok := d.SI("throws"); ok && n >= 2 {
				throws[d] = throw
			}
		}
	}
	return p.Facts.Again(&states.Position{Key: key, Engine: engine, Throws: throws, Corner: states.ColdFull, Charge: 1})
}

// liveApart reports whether a source still leads to a contact while its
// connector is pulled apart, every switch and relay counting as closed.
func (p *Pack) liveApart(t *harness.Terminal) bool {
	n := p.Facts.Network
	if n.Return(t.Index) {
		return false
	}
	hot := func(node int) bool {
		return slices.ContainsFunc(n.At[node], func(i int) bool {
			return n.Elements[i].Kind == network.Source && n.Hot(i) == node
		})
	}
	return n.LedTo(t.Index, hot, func(e *network.Element) bool { return e.Kind == network.Joint && e.Device == t.Device })
}

// liveKeys says with which positions of the key a contact stays live that is
// live apart.
func (p *Pack) liveKeys(t *harness.Terminal, points []keyed) string {
	var keys []string
	for _, k := range points {
		if slices.ContainsFunc(k.points, func(at *states.Point) bool { return p.live(at, t.Index) }) {
			keys = append(keys, k.key)
		}
	}
	switch {
	case len(keys) == len(points):
		return "live, key in any position"
	case len(keys) == 0:
		return "live in some position"
	}
	return "live, key " + either(keys)
}
