package core

import (
	"strings"

	"hame/check/figures"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/source"
)

// Feed is a device or a wire in the hierarchy of what feeds what.
type Feed struct {
	Name   string
	Detail string
	Sort   Sort
	Spot   Spot        // its name
	Whole  source.Span // its declaration
	Over   []Spot      // the wires that lead there
}

// FeedAt is the device, way or wire that a name at an offset means.
func (v *View) FeedAt(f *File, offset int, p *Pass) (Feed, bool) {
	m := v.At(f, offset)
	if m == nil {
		return Feed{}, false
	}
	name := m.Name
	if m.Terminal != "" {
		name += "." + m.Terminal
	}
	return p.FeedOf(name)
}

// FeedOf is a device, a panel's way or a wire by its name.
func (p *Pass) FeedOf(name string) (Feed, bool) {
	h := p.bound()
	if h == nil {
		return Feed{}, false
	}
	device, terminal, _ := strings.Cut(name, ".")
	for _, w := range h.Wires {
		if w.Name == name {
			return p.wireFeed(w)
		}
	}
	for _, d := range h.Devices {
		if d.Name != device {
			continue
		}
		if !d.Is(kinds.Protection, "panel") || terminal == "feed" {
			name = device
		}
		return p.deviceFeed(d, name)
	}
	return Feed{}, false
}

func (p *Pass) wireFeed(w *harness.Wire) (Feed, bool) {
	detail := ""
	if f := p.wire(w.Name); f != nil {
		detail = wireLabel(f)
	}
	return p.feed(w.Name, detail, Wire, w.Origin)
}

func (p *Pass) deviceFeed(d *harness.Device, name string) (Feed, bool) {
	return p.feed(name, d.Kind.Title(), Device, d.Origin)
}

func (p *Pass) feed(name, detail string, sort Sort, o harness.Origin) (Feed, bool) {
	f := p.FileOf(o.File)
	return Feed{Name: name, Detail: detail, Sort: sort, Spot: Spot{f, o.Name}, Whole: o.Decl.Join(o.Name)}, f != nil
}

// Feeds lists what a device or wire feeds, or what feeds it.
func (p *Pass) Feeds(name string, upstream bool) []Feed {
	h := p.bound()
	if h == nil {
		return nil
	}
	ranks := p.ranks()
	var list []Feed
	add := func(f Feed, ok bool, over Spot) {
		if !ok {
			return
		}
		for i := range list {
			if list[i].Name == f.Name {
				list[i].Over = append(list[i].Over, over)
				return
			}
		}
		f.Over = []Spot{over}
		list = append(list, f)
	}
	for _, w := range h.Wires {
		from, to := ends(w, ranks)
		if from == nil || p.isReturn(w) {
			continue
		}
		near, far := from, to
		if upstream {
			near, far = to, from
		}
		over := Spot{p.FileOf(w.Origin.File), w.Origin.Name}
		switch {
		case over.File == nil:
		case w.Name == name:
			f, ok := p.deviceFeed(far.Device, wayName(far))
			add(f, ok, over)
		case touches(near, name):
			f, ok := p.wireFeed(w)
			add(f, ok, over)
		}
	}
	return list
}

// wayName is a device's name, or a panel's way's.
func wayName(t *harness.Terminal) string {
	if t.Device.Is(kinds.Protection, "panel") && t.Name != "feed" {
		return t.FullName()
	}
	return t.Device.Name
}

func touches(t *harness.Terminal, name string) bool {
	return t.Device.Name == name || t.FullName() == name || t.Device.Is(kinds.Protection, "panel") && t.Name == "feed" && t.Device.Name == head(name)
}

func (p *Pass) isReturn(w *harness.Wire) bool {
	f := p.wire(w.Name)
	return f != nil && f.Side == figures.Return
}

// ends are a wire's ends as current goes: from the one that is nearer to a
// source. Nil where that cannot be told.
func ends(w *harness.Wire, ranks map[*harness.Terminal]int) (from, to *harness.Terminal) {
	a, b := w.Ends[0].Terminal, w.Ends[1].Terminal
	if a == nil || b == nil {
		return nil, nil
	}
	ra, okA := ranks[a]
	rb, okB := ranks[b]
	switch {
	case !okA || !okB || ra == rb:
		return nil, nil
	case ra < rb:
		return a, b
	}
	return b, a
}

// ranks says how many steps each terminal is away from the nearest source, over
// wires and through whatever lets current through.
func (p *Pass) ranks() map[*harness.Terminal]int {
	h := p.bound()
	ranks := map[*harness.Terminal]int{}
	var queue []*harness.Terminal
	visit := func(t *harness.Terminal, rank int) {
		if _, seen := ranks[t]; t != nil && !seen {
			ranks[t] = rank
			queue = append(queue, t)
		}
	}
	for _, d := range h.Devices {
		if d.Is(kinds.Supply) && !d.Is(kinds.Supply, "converter") {
			for _, t := range d.Terminals {
				if t.Name != "neg" {
					visit(t, 0)
				}
			}
		}
	}
	returns := p.returns()
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		for _, other := range through(t) {
			visit(other, ranks[t]+1)
		}
		for _, w := range t.Wires {
			if !returns[w.Name] {
				visit(otherEnd(w, t), ranks[t]+1)
			}
		}
	}
	return ranks
}

func (p *Pass) returns() map[string]bool {
	list := map[string]bool{}
	for _, f := range p.Run.Figures.Wires {
		if f.Side == figures.Return {
			list[f.Wire.Name] = true
		}
	}
	return list
}

func otherEnd(w *harness.Wire, t *harness.Terminal) *harness.Terminal {
	if w.Ends[0].Terminal == t {
		return w.Ends[1].Terminal
	}
	return w.Ends[0].Terminal
}

// through lists the terminals that current gets to within a device.
func through(t *harness.Terminal) []*harness.Terminal {
	d := t.Device
	switch {
	case d.Is(kinds.Load), d.Is(kinds.Ground), d.Is(kinds.Supply) && !d.Is(kinds.Supply, "converter"):
		return nil
	case d.Is(kinds.Supply, "converter") && t.Name != "in":
		return nil
	case d.Is(kinds.Switch, "relay") && (t.Name == "85" || t.Name == "86"):
		return nil
	}
	var list []*harness.Terminal
	for _, other := range d.Terminals {
		if other != t && connects(d, other.Name) {
			list = append(list, other)
		}
	}
	return list
}

func connects(d *harness.Device, terminal string) bool {
	switch {
	case d.Is(kinds.Switch, "relay"):
		return terminal != "85" && terminal != "86"
	case d.Is(kinds.Supply, "converter"):
		return terminal == "out"
	}
	return true
}
