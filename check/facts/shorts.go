package facts

import (
	"math"
	"slices"

	"hame/check/network"
	"hame/check/states"
)

// DeadWay is a way by which a source feeds nothing but wires, contacts and
// protection: from its pole to its own other pole, or into a source of other
// volts.
type DeadWay struct {
	Source  int     // its element
	Against int     // the other source; -1 where there is none
	From    int     // the node that the way begins at
	Route   []int   // its elements
	LeftV   float64 // of two sources: what stands across the way and nothing else
}

// chargeShare is what an alternator's volts lie above its system's, as the
// language takes it where they are not declared.
const chargeShare = 1.18

// unlikeShare is how far the volts of two sources may lie apart, of the smaller,
// before they count as of different systems: a charger's 14.4 V on 12 V is
// 20 % apart, 36 V and 48 V are 33 % (trade judgement).
const unlikeShare = 0.25

// DeadWays finds a short in a solved position, or with every contact closed where
// there is no position. Among several, the first source's own.
func (f *Facts) DeadWays(p *states.Point) (DeadWay, bool) {
	if p == nil && f.unshorted != nil {
		return f.unshorted.way, f.unshorted.may
	}
	passes := func(i, from int) bool { return f.Passes(p, i, from) }
	list := f.Sources()
	for _, i := range list {
		e := &f.Network.Elements[i]
		if route, ok := f.Route(e.A, func(node int) bool { return node == e.B }, passes); ok && e.A != e.B {
			return DeadWay{Source: i, Against: -1, From: e.A, Route: route}, true
		}
	}
	if len(list) < 2 {
		return DeadWay{}, false
	}
	return f.opposed(p, list)
}

// opposed looks for two sources whose volts do not agree where they are tied.
func (f *Facts) opposed(p *states.Point, list []int) (DeadWay, bool) {
	t := &potentials{f: f, p: p, volts: make([]float64, f.Network.Nodes), by: make([]int, f.Network.Nodes)}
	for v := range t.by {
		t.by[v] = -1
	}
	for _, i := range list {
		if e := &f.Network.Elements[i]; t.by[e.B] >= 0 || t.by[e.A] >= 0 {
			continue
		}
		if s, found := t.island(i, list); found {
			return s, true
		}
	}
	return t.acrossDiodes()
}

// potentials gives every node that a source holds its volts above the first
// source's negative, and says which source holds it.
type potentials struct {
	f     *Facts
	p     *states.Point
	volts []float64 // by node
	by    []int     // by node: the source; -1 where none holds it
}

// of is a node's volts; false where no source holds it.
func (t *potentials) of(node int) (volts float64, known bool) { return t.volts[node], t.by[node] >= 0 }

// spread gives a node's volts to all that it is tied to, diodes left out.
func (t *potentials) spread(node int, volts float64, source int) {
	tied := t.f.Reach([]int{node}, func(i, from int) bool {
		return t.f.Network.Elements[i].Kind != network.Diode && t.f.Passes(t.p, i, from)
	})
	for _, n := range tied.List() {
		t.volts[n], t.by[n] = volts, source
	}
}

// island goes from source to source from one of them on.
func (t *potentials) island(first int, list []int) (DeadWay, bool) {
	t.spread(t.f.Network.Elements[first].B, 0, first)
	for again := true; again; {
		again = false
		for _, i := range list {
			e := &t.f.Network.Elements[i]
			low, lowKnown := t.of(e.B)
			high, highKnown := t.of(e.A)
			v := systemVolts(e.Source)
			switch {
			case lowKnown && highKnown:
				if left := math.Abs(low + v - high); left > unlikeShare*v {
					return t.short(i, e.A, left)
				}
			case lowKnown:
				t.spread(e.A, low+v, i)
				again = true
			case highKnown:
				t.spread(e.B, high-v, i)
				again = true
			}
		}
	}
	return DeadWay{}, false
}

// systemVolts are the volts of the system that a source is for.
func systemVolts(s *network.SourceSpec) float64 {
	if s.Sort == "alternator" {
		return s.NominalV / chargeShare
	}
	return s.NominalV
}

// short names the other source and the way between them. Where the one that
// holds the node is the source itself, the loop closes at its negative.
func (t *potentials) short(source, node int, left float64) (DeadWay, bool) {
	n := t.f.Network
	if t.by[node] == source {
		node = n.Elements[source].B
	}
	other := &n.Elements[t.by[node]]
	route, _ := t.f.Route(node, func(at int) bool { return at == other.A || at == other.B }, func(i, from int) bool { return t.f.Passes(t.p, i, from) })
	return DeadWay{Source: source, Against: t.by[node], From: node, Route: route, LeftV: left}, true
}

// acrossDiodes: a diode carries from a higher system into a lower one.
func (t *potentials) acrossDiodes() (DeadWay, bool) {
	for i := range t.f.Network.Elements {
		e := &t.f.Network.Elements[i]
		if e.Kind != network.Diode {
			continue
		}
		high, highKnown := t.of(e.A)
		low, lowKnown := t.of(e.B)
		least := min(high, low)
		if highKnown && lowKnown && least > 0 && high-low > unlikeShare*least {
			return DeadWay{Source: t.by[e.B], Against: t.by[e.A], From: e.A, Route: []int{i}, LeftV: high - low}, true
		}
	}
	return DeadWay{}, false
}

// Sources lists the elements of the sources; it is the asker's to read, not to
// change.
func (f *Facts) Sources() []int { return f.sources }

func sourcesOf(n *network.Network) []int {
	var list []int
	for i := range n.Elements {
		if n.Elements[i].Kind == network.Source {
			list = append(list, i)
		}
	}
	return slices.Clip(list)
}

// ShortIn finds a short in a solved position, or where relays go round in
// circles in it, with them in.
func (f *Facts) ShortIn(p *states.Point) (DeadWay, bool) {
	if !f.unshorted.may {
		return DeadWay{}, false
	}
	if s, found := f.DeadWays(p); found || len(p.Unsettled) == 0 {
		return s, found
	}
	return f.DeadWays(pulledIn(p))
}

// pulledIn is a position with the coils in that never settle.
func pulledIn(p *states.Point) *states.Point {
	in := *p
	in.In = map[int]bool{}
	for coil, is := range p.In {
		in.In[coil] = is
	}
	for _, coil := range p.Unsettled {
		in.In[coil] = true
	}
	return &in
}
