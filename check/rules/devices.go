package rules

import (
	"math"
	"slices"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/protect"
	"hame/check/trip"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// timed is a protective device with its opening times, at a rating in A that
// may be another than its own; false where that is not known.
func timed(d *network.Device, ratingA float64) (trip.Device, bool) {
	return facts.Times(d, ratingA)
}

// mustOpenA is the least current at which a device must open at all, by halving;
// its times only fall with the current.
func mustOpenA(t trip.Device) float64 {
	holds, opens := 0.0, 1.0
	for range 200 {
		switch middle := (holds + opens) / 2; {
		case math.IsInf(t.SlowestSeconds(opens), 1):
			holds, opens = opens, 2*opens
		case math.IsInf(t.SlowestSeconds(middle), 1):
			holds = middle
		default:
			opens = middle
		}
	}
	return opens
}

// tapped reports whether a device is the one that protects a borrowed circuit.
func tapped(d *network.Device) bool { return d.Of.Is(kinds.Supply, "tap") }

// sized is a device in words: "the 10 A blade fuse", "the link".
func sized(d *network.Device) string {
	switch {
	case d.Sort == "link":
		return "link of " + number(d.LinkMM2) + " mm2"
	case d.Sort == "fuse":
		return amps(d.RatingA) + " " + d.Family + " fuse"
	}
	return amps(d.RatingA) + " " + d.Sort
}

// familyOf is the family that a device's ratings are made in.
func familyOf(d *network.Device) (tables.FuseFamily, bool) {
	switch d.Sort {
	case "fuse":
		return tables.Fuse(d.Family)
	case "breaker":
		return tables.Breaker(d.Family)
	}
	return tables.FuseFamily{}, false
}

// atNode lists how devices guard the wires that land on a node.
func (c *Context) atNode(node int) []protect.Path {
	var list []protect.Path
	for _, i := range c.Network.At[node] {
		if w := c.Network.Elements[i].Wire; w != nil {
			list = append(list, c.guards(w)...)
		}
	}
	return list
}

// guards lists the ways by which devices guard a wire. There are none where a
// source that can harm it reaches it with no device between: another source's
// device guards nothing there, and protection/missing and protection/far judge
// the wire. They are the asker's to read, not to change.
func (c *Context) guards(w *harness.Wire) []protect.Path {
	paths := c.Protect.Cover(w).Paths
	bare := func(p protect.Path) bool { return p.Bare }
	if !slices.ContainsFunc(paths, bare) { // as it is with nearly all wires
		return paths
	}
	for _, p := range paths {
		if p.Bare && !c.WithinOutput(p.Source, w) {
			return nil
		}
	}
	return slices.DeleteFunc(slices.Clone(paths), bare)
}

// feedNode is the terminal by which a load is fed.
func (c *Context) feedNode(element int) int {
	e := &c.Network.Elements[element]
	if c.Network.Return(e.A) || !c.Network.Feed(e.A) && c.Network.Feed(e.B) {
		return e.B
	}
	return e.A
}

// declared is where the thing is declared that a fact is needed of.
func (c *Context) declared(need finding.Need) finding.Place {
	for _, d := range c.Harness.Devices {
		if d.Name == need.Name {
			return d.Origin.Place()
		}
	}
	for _, w := range c.Harness.Wires {
		if w.Name == need.Name {
			return w.Origin.Place()
		}
	}
	return c.Harness.Origin.Place()
}

// hotPlace reports whether a device sits where its rating must be derated.
func hotPlace(d *network.Device) bool {
	const hotC = 60 // the contract's own bound of a hot zone
	return d.AtPlace != nil && d.AtPlace.Zone != nil && d.AtPlace.Zone.Known && d.AtPlace.Zone.MostC >= hotC
}

// ceilings are the greatest ratings that what each device protects allows: its
// wires and pigtails, the loads' data plates, its panel and its holder.
func (c *Context) ceilings() map[*network.Device]float64 {
	most := map[*network.Device]float64{}
	bound := func(d *network.Device, amps float64) {
		if old, ok := most[d]; !ok || amps < old {
			most[d] = amps
		}
	}
	l, limited := c.Practice.Limit("device_wire", "")
	var devices []*network.Device
	for _, w := range c.Harness.Wires {
		devices = answering(devices[:0], c.guards(w))
		if len(devices) == 0 {
			continue
		}
		r, rated := c.DeviceAmpacity(w)
		for _, d := range devices {
			if rated && limited {
				bound(d, r.Amps*l.Value/100)
			}
			c.boundByLoads(w, func(amps float64) { bound(d, amps) })
		}
	}
	for _, i := range c.fuseElements() {
		d := c.Network.Elements[i].Fuse
		boundByHolder(d, func(amps float64) { bound(d, amps) })
	}
	return most
}

func (c *Context) boundByLoads(w *harness.Wire, bound func(float64)) {
	l, limited := c.Practice.Limit("device_wire", "")
	for _, e := range w.Ends {
		if e.Terminal == nil || !e.Terminal.Device.Is(kinds.Load) || e.Terminal.Name == "neg" {
			continue
		}
		if plate, ok := e.Terminal.Device.SI("fuse"); ok {
			bound(plate)
		}
		if r, ok := c.pigtail(e.Terminal.Device); ok && limited {
			bound(r.Amps * l.Value / 100)
		}
	}
}

func boundByHolder(d *network.Device, bound func(float64)) {
	setting := "holder"
	if d.Way != nil {
		setting = "each"
	}
	if most, ok := d.Of.SI(setting); ok {
		bound(most)
	}
}

// ratingSpan is where a device's rating is written, if it is in its own
// declaration.
func ratingSpan(d *network.Device) (finding.Place, bool) {
	setting := "rating"
	if d.Way != nil {
		setting = "way"
	}
	file, decl := d.Of.Origin.File, d.Of.Origin.Decl
	for _, args := range d.Of.Given(setting) {
		a, ok := args.Get("")
		if !ok || d.Way != nil && args.RepeatKey() != d.Way.Name {
			continue
		}
		own := args.Key.Start >= decl.Start && a.End <= decl.End && file.Text[args.Key.Start:args.Key.End] == setting
		return finding.Place{File: file, Span: a.Span}, own
	}
	return finding.Place{}, false
}

// carriesSteadily reports whether a rating carries a current lastingly where
// the device sits, by the practice.
func (c *Context) carriesSteadily(d *network.Device, ratingA, steadyA float64) bool {
	l := c.steadyLimit(d)
	return steadyA <= ratingA*l.Value/100*(1+1e-9)
}

// steadyLimit is the share of its rating that a device may carry lastingly.
func (c *Context) steadyLimit(d *network.Device) tables.Limit {
	l, _ := c.Practice.Limit("device_load", "")
	if hot, ok := c.Practice.Limit("device_load_hot", ""); ok && hotPlace(d) && hot.Value < l.Value {
		return hot
	}
	return l
}
