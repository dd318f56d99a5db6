package states

import (
	"hame/check/network"
	"hame/lang/harness"
)

// unit is one independent part's switches with the settings to go through.
type unit struct {
	hands    []hand
	settings [][]int // throws, by hand
	gate     bool    // all open, it leaves other units dead
}

const (
	unitSettings = 256 // most settings of a unit that are gone through one by one
	mostGates    = 24
)

// splitter finds the independent parts of a network in one frame.
type splitter struct {
	n      *network.Network
	can    []bool
	relays []int
	passed map[int]bool             // relay contacts taken for closed
	gates  map[*harness.Device]bool // switches taken for closed
	coils  map[int]bool             // coils of gates
	throws map[*harness.Device]int
	parts  *parts
	hands  map[int][]hand // by part
	order  []int          // parts that have hands
}

// units splits switches into independent units. Where a part has too many, the
// contact next to the bus that feeds most of it is taken for closed, so that
// what it feeds becomes bus.
func (s *Solver) units(can []bool, list []hand) []unit {
	sp := &splitter{
		n: s.Network, can: can, relays: s.relays, passed: map[int]bool{},
		gates: map[*harness.Device]bool{}, coils: map[int]bool{}, throws: map[*harness.Device]int{},
	}
	for _, h := range list {
		sp.throws[h.device] = h.throws
	}
	for tries := 0; ; tries++ {
		sp.split(list)
		big := sp.biggest()
		if big < 0 || tries == mostGates || !sp.open(big) {
			break
		}
	}
	return sp.list()
}

func (sp *splitter) passes(i int) bool {
	e := &sp.n.Elements[i]
	if e.Kind != network.Contact {
		return sp.can[i]
	}
	switch e.Gate.By {
	case network.Hand:
		return sp.gates[e.Device]
	case network.Relay:
		return sp.passed[i]
	}
	return sp.can[i]
}

// split finds the parts. A relay that no switch works is where its coil is,
// and its contacts pass.
func (sp *splitter) split(list []hand) {
	for again := true; again; {
		sp.parts = findParts(sp.n, sp.poles(), sp.passes)
		sp.tie(list)
		again = false
		for _, i := range sp.relays {
			coil := sp.n.Elements[i].Gate.Coil
			if sp.can[i] && !sp.passed[i] && len(sp.hands[sp.parts.of(coil)]) == 0 {
				sp.passed[i], again = true, true
			}
		}
	}
	for _, i := range sp.relays {
		if sp.can[i] && !sp.passed[i] {
			sp.parts.join(sp.n.Nodes+i, sp.n.Nodes+sp.n.Elements[i].Gate.Coil)
		}
	}
	sp.tie(list)
}

func (sp *splitter) poles() []int {
	var poles []int
	for i := range sp.n.Elements {
		if e := &sp.n.Elements[i]; e.Kind == network.Source {
			poles = append(poles, e.A, e.B)
		}
	}
	return poles
}

// tie joins the poles of each switch and lists the switches of each part.
func (sp *splitter) tie(list []hand) {
	first := map[*harness.Device]int{}
	for i := range sp.n.Elements {
		e := &sp.n.Elements[i]
		if e.Kind != network.Contact || e.Gate.By != network.Hand {
			continue
		}
		if k, ok := first[e.Device]; ok {
			sp.parts.join(sp.n.Nodes+k, sp.n.Nodes+i)
		} else {
			first[e.Device] = i
		}
	}
	sp.hands, sp.order = map[int][]hand{}, sp.order[:0]
	for _, h := range list {
		part := sp.parts.of(first[h.device])
		if sp.hands[part] == nil {
			sp.order = append(sp.order, part)
		}
		sp.hands[part] = append(sp.hands[part], h)
	}
}

// biggest is the part with most settings, if they are too many.
func (sp *splitter) biggest() int {
	found, most := -1, unitSettings
	for _, part := range sp.order {
		if count := settingsOf(sp.hands[part], 1<<20); count > most {
			found, most = part, count
		}
	}
	return found
}

// open takes a contact for closed to split a part; false where none helps.
func (sp *splitter) open(part int) bool {
	found, most := -1, 1
	for i := range sp.n.Elements {
		e := &sp.n.Elements[i]
		if e.Kind != network.Contact || !sp.can[i] || sp.parts.of(i) != part || sp.parts.bus[e.A] == sp.parts.bus[e.B] {
			continue
		}
		from := e.A
		if sp.parts.bus[from] {
			from = e.B
		}
		if feeds := sp.feeds(from); feeds > most {
			found, most = i, feeds
		}
	}
	if found < 0 {
		return false
	}
	if e := &sp.n.Elements[found]; e.Gate.By == network.Hand {
		sp.gates[e.Device] = true
	} else {
		sp.passed[found] = true
		sp.coils[e.Gate.Coil] = true
	}
	return true
}

// feeds counts the contacts of switches behind a node, as far as the bus.
func (sp *splitter) feeds(from int) int {
	seen, count := map[int]bool{from: true}, 0
	for todo := []int{from}; len(todo) > 0; {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range sp.n.At[v] {
			e := &sp.n.Elements[i]
			u := e.A + e.B - v
			if !sp.can[i] || seen[u] || !sp.parts.inner(u) {
				continue
			}
			if e.Kind == network.Contact && e.Gate.By == network.Hand {
				count++
			}
			seen[u] = true
			todo = append(todo, u)
		}
	}
	return count
}

// list makes the units.
func (sp *splitter) list() []unit {
	gates := map[int]bool{}
	for coil := range sp.coils {
		gates[sp.parts.of(coil)] = true
	}
	var list []unit
	for _, part := range sp.order {
		u := unit{hands: sp.hands[part], gate: gates[part]}
		for _, h := range u.hands {
			u.gate = u.gate || sp.gates[h.device]
		}
		u.settings = everySetting(u.hands)
		list = append(list, u)
	}
	return list
}
