package facts

import (
	"slices"

	"hame/check/network"
	"hame/check/states"
)

// Meant is how the feed side is meant to be fed. It falls into zones that wires,
// joints and protection alone tie together; contacts and diodes lead from one to
// the next. A contact is meant to feed what lies at its outgoing end (out, 87,
// acc …). It is meant to feed what lies at its other end where a source lies
// right behind it, or where nothing else feeds that end at all: a change-over
// contact whose common end goes to the load, or a switch that was wired the
// other way round.
type Meant struct {
	f       *Facts
	zone    []int   // by node; -1 on the return side
	sourced []bool  // by zone: a source's live pole lies in it
	touches [][]int // by zone: the contacts and diodes that lead out of it or into it
	feeds   [][]Link
	leads   [][]lead // by zone: feeds, the other way round
	first   []int    // the zones that sources lie in and that lead on
}

// Link is a contact or diode that feeds a zone from another.
type Link struct {
	Element int
	From    int // the zone
}

// lead is a link as the zone has it that feeds another.
type lead struct {
	element, to int
	diode       bool
}

// Meant is how the feed side is meant to be fed, worked out once.
func (f *Facts) Meant() *Meant { return f.meant() }

func (f *Facts) newMeant() *Meant {
	m := &Meant{f: f, zone: make([]int, f.Network.Nodes)}
	m.divide()
	m.touch()
	m.feeds = make([][]Link, len(m.sourced))
	for z := range m.feeds {
		m.feeds[z] = m.feedsOf(z)
	}
	m.lead()
	return m
}

// lead turns the feeds round.
func (m *Meant) lead() {
	m.leads = make([][]lead, len(m.feeds))
	for z, feeds := range m.feeds {
		if m.sourced[z] {
			continue
		}
		for _, l := range feeds {
			m.leads[l.From] = append(m.leads[l.From], lead{l.Element, z, m.f.Network.Elements[l.Element].Kind == network.Diode})
		}
	}
	for z, sourced := range m.sourced {
		if sourced && len(m.leads[z]) > 0 {
			m.first = append(m.first, z)
		}
	}
}

// touch lists what joins each zone to others.
func (m *Meant) touch() {
	m.touches = make([][]int, len(m.sourced))
	for i := range m.f.Network.Elements {
		e := &m.f.Network.Elements[i]
		a, b := m.zone[e.A], m.zone[e.B]
		if e.Kind != network.Contact && e.Kind != network.Diode || a == b || a < 0 || b < 0 {
			continue
		}
		m.touches[a] = append(m.touches[a], i)
		m.touches[b] = append(m.touches[b], i)
	}
}

// divide makes the zones.
func (m *Meant) divide() {
	n := m.f.Network
	for node := range m.zone {
		m.zone[node] = -1
	}
	for node := range m.zone {
		if m.zone[node] >= 0 || n.Return(node) {
			continue
		}
		z := len(m.sourced)
		m.sourced = append(m.sourced, false)
		m.spread(node, z)
	}
	for _, i := range m.f.Sources() {
		if z := m.zone[n.Hot(i)]; z >= 0 {
			m.sourced[z] = true
		}
	}
}

// spread gives a zone's number to all that ties to a node.
func (m *Meant) spread(node, z int) {
	m.zone[node] = z
	for todo := []int{node}; len(todo) > 0; {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range m.f.Network.At[at] {
			if next := m.f.Across(i, at); m.zone[next] < 0 && m.ties(i, at) {
				m.zone[next] = z
				todo = append(todo, next)
			}
		}
	}
}

func (m *Meant) ties(element, from int) bool {
	switch m.f.Network.Elements[element].Kind {
	case network.Wire, network.Joint, network.Fuse:
		return !m.f.Network.Return(m.f.Across(element, from))
	}
	return false
}

// feedsOf lists what is meant to feed a zone.
func (m *Meant) feedsOf(z int) []Link {
	var outgoing, other []Link
	for _, i := range m.touches[z] {
		e := &m.f.Network.Elements[i]
		a, b := m.zone[e.A], m.zone[e.B]
		switch {
		case b == z && m.led(a, z):
			outgoing = append(outgoing, Link{i, a})
		case a == z && e.Kind == network.Contact && m.sourced[b]:
			outgoing = append(outgoing, Link{i, b})
		case a == z && e.Kind == network.Contact && m.led(b, z):
			other = append(other, Link{i, b})
		}
	}
	if len(outgoing) == 0 {
		return other
	}
	return outgoing
}

// led reports whether a source leads to a zone by any contact without another.
func (m *Meant) led(zone, without int) bool {
	seen := map[int]bool{without: true, zone: true}
	for todo := []int{zone}; len(todo) > 0; {
		z := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if m.sourced[z] {
			return true
		}
		for _, i := range m.touches[z] {
			if from := m.into(i, z); from >= 0 && !seen[from] {
				seen[from] = true
				todo = append(todo, from)
			}
		}
	}
	return false
}

// into is the zone that an element that touches another leads into it from; -1
// for a diode that leads out of it.
func (m *Meant) into(element, z int) int {
	e := &m.f.Network.Elements[element]
	a, b := m.zone[e.A], m.zone[e.B]
	switch {
	case b == z:
		return a
	case e.Kind == network.Contact:
		return b
	}
	return -1
}

// Zone is the zone of a node, -1 on the return side.
func (m *Meant) Zone(node int) int { return m.zone[node] }

// Feeds lists what is meant to feed a zone; nothing for one that a source lies
// in, or that nothing leads to.
func (m *Meant) Feeds(zone int) []Link {
	if zone < 0 || m.sourced[zone] {
		return nil
	}
	return m.feeds[zone]
}

// LiveIn lists, by zone, what is live as it is meant to be in a solved position.
func (m *Meant) LiveIn(p *states.Point) []bool {
	live := slices.Clone(m.sourced)
	todo := slices.Clone(m.first)
	for len(todo) > 0 {
		from := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, l := range m.leads[from] {
			if !live[l.to] && (l.diode || m.f.Closed(p, l.element)) {
				live[l.to] = true
				todo = append(todo, l.to)
			}
		}
	}
	return live
}

// Opened lists the contacts that are open where a zone that is not live should
// be fed: its own, or where those are closed the ones behind them.
func (m *Meant) Opened(p *states.Point, zone int) []int {
	var list []int
	seen := map[int]bool{zone: true}
	for todo := []int{zone}; len(todo) > 0; todo = todo[1:] {
		for _, l := range m.Feeds(todo[0]) {
			e := &m.f.Network.Elements[l.Element]
			switch {
			case e.Kind == network.Contact && !m.f.Closed(p, l.Element):
				list = append(list, l.Element)
			case !seen[l.From]:
				seen[l.From] = true
				todo = append(todo, l.From)
			}
		}
		if len(list) > 0 {
			break
		}
	}
	return list
}
