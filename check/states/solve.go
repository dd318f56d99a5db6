package states

import (
	"hame/check/circuit"
	"hame/check/network"
	"hame/check/tables"
)

// Point is the network solved in a position.
type Point struct {
	Position  Position
	network   *network.Network
	amps      []float64
	volts     []float64
	alive     []bool
	In        map[int]bool // coils, by element, whose relay is in
	Unsettled []int        // coils that can neither stay in nor out
	Sagging   []int        // loads that their feed cannot hold up
	Failed    error        // the network has no solution
}

// Amps is the current through an element, from A to B; of a source, what it
// gives.
func (p *Point) Amps(element int) float64 { return p.amps[element] }

// Volts is a node's voltage above its part's reference.
func (p *Point) Volts(node int) float64 { return p.volts[node] }

// Across is the voltage across an element, A above B.
func (p *Point) Across(element int) float64 {
	e := p.network.Elements[element]
	return p.volts[e.A] - p.volts[e.B]
}

// Alive reports whether a node is joined to a source.
func (p *Point) Alive(node int) bool { return p.alive[node] }

// maxSettle is how often relays may change before a position counts as one
// that never settles; a chain of n relays needs n.
const maxSettle = 32

// Solve solves the network in a position, relays in or out by the voltage that
// their coils really get.
func (s *Solver) Solve(p Position) *Point {
	s.state.Reset()
	s.set(&p)
	out := &Point{Position: p, network: s.Network, In: map[int]bool{}}
	for range maxSettle {
		solved, err := s.net.Solve(s.state)
		if err != nil {
			out.Failed = err
		}
		if solved == nil {
			out.empty()
			return out
		}
		s.copy(out, solved)
		changed := s.relays(out, &p)
		if len(changed) == 0 {
			return out
		}
		out.Unsettled = changed
	}
	return out
}

func (p *Point) empty() {
	p.amps = make([]float64, len(p.network.Elements))
	p.volts = make([]float64, p.network.Nodes)
	p.alive = make([]bool, p.network.Nodes)
}

func (s *Solver) copy(out *Point, solved *circuit.Point) {
	out.empty()
	out.Unsettled = nil
	for i, br := range s.branches {
		if br >= 0 {
			out.amps[i] = solved.Current(br)
		}
	}
	for i := range out.volts {
		out.volts[i], out.alive[i] = solved.Volts(circuit.Node(i)), solved.Alive(circuit.Node(i))
	}
	out.Sagging = s.elements(solved.Sagging())
}

// elements turns branches of the circuit back into elements.
func (s *Solver) elements(list []circuit.Branch) []int {
	if len(list) == 0 {
		return nil
	}
	var found []int
	for i, br := range s.branches {
		for _, b := range list {
			if br == b {
				found = append(found, i)
			}
		}
	}
	return found
}

// relays moves the relays whose coils ask for it and lists those coils.
func (s *Solver) relays(out *Point, p *Position) []int {
	var changed []int
	for i := range s.Network.Elements {
		e := &s.Network.Elements[i]
		if e.Kind != network.Load || e.Load.Coil == nil {
			continue
		}
		if in := s.pulled(out, i, p); in != out.In[i] {
			out.In[i] = in
			changed = append(changed, i)
		}
	}
	if len(changed) > 0 {
		s.move(out)
	}
	return changed
}

// pulled: a coil pulls in above its pick-up voltage and lets go below its
// drop-out; both grow with the copper's heat. Between, it stays as it is.
func (s *Solver) pulled(out *Point, coil int, p *Position) bool {
	c := s.Network.Elements[coil].Load.Coil
	volts := out.Across(coil)
	if volts < 0 {
		volts = -volts
	}
	heat := tables.CopperAt(1, s.ambient(coil, p))
	switch {
	case volts >= c.PullsV*heat:
		return true
	case volts <= c.ReleasesV*heat:
		return false
	}
	return out.In[coil]
}

func (s *Solver) move(out *Point) {
	for i := range s.Network.Elements {
		e := &s.Network.Elements[i]
		if e.Kind == network.Contact && e.Gate.By == network.Relay {
			s.state.Switch(s.branches[i], out.In[e.Gate.Coil] != e.Gate.Rest)
		}
	}
}
