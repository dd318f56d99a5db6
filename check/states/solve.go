package states

import (
	"math"
	"slices"

	"hame/check/circuit"
	"hame/check/network"
	"hame/lang/tables"
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

// Solve solves the network in a position, relays in or out by the voltage that
// their coils really get. They begin at rest and move together; where that goes
// round in circles they move one at a time, as in a race that one of them wins.
func (s *Solver) Solve(p Position) *Point { return s.from(p, nil) }

// held is what a position may be too, if it comes after another: with the
// relays in that hold themselves. It is nil where nothing differs.
func (s *Solver) held(point *Point) *Point {
	for _, coil := range s.latches {
		if !point.In[coil] {
			held := s.from(point.Position, s.latches)
			if held.Failed != nil || s.mark(held) == s.mark(point) {
				return nil
			}
			return held
		}
	}
	return nil
}

func (s *Solver) from(p Position, in []int) *Point {
	s.set(&p)
	out := &Point{Position: p, network: s.Network, In: map[int]bool{}}
	for _, coil := range in {
		out.In[coil] = true
	}
	s.move(out)
	var race race
	if asking := s.foresee(out); len(asking) > 0 {
		s.turn(out, race.turn(asking, s.mark(out)))
	}
	for s.once(out) {
		asking := race.turn(s.asking(out), s.mark(out))
		out.Unsettled = race.circle
		if len(asking) == 0 {
			break
		}
		s.turn(out, asking)
	}
	out.Unsettled = race.circle
	return out
}

// once solves the network with the relays where they are.
func (s *Solver) once(out *Point) bool {
	s.switchAll(s.open, false)
	solved, err := s.net.Answer(s.state)
	if err != nil {
		out.Failed = err
		out.amps = make([]float64, len(s.Network.Elements))
		out.volts = make([]float64, s.Network.Nodes)
		out.alive = make([]bool, s.Network.Nodes)
		return false
	}
	s.copy(out, solved)
	return true
}

func (s *Solver) copy(out *Point, solved *circuit.Point) {
	out.amps = s.byElement(out.amps, solved.ByBranch())
	// A node of the network has the same number in the circuit.
	out.volts, out.alive = solved.ByNode()
	out.Sagging = nil
	for _, br := range solved.Sagging() {
		out.Sagging = append(out.Sagging, s.element[br])
	}
}

// byElement puts what is known by branch by element. Where no converter puts them
// into another order they are the same, and nothing is copied.
func (s *Solver) byElement(into, branches []float64) []float64 {
	if s.inOrder {
		return branches
	}
	if into == nil {
		into = make([]float64, len(s.branches))
	}
	for i, br := range s.branches {
		if br >= 0 {
			into[i] = branches[br]
		}
	}
	return into
}

// mark tells one setting of the relays from another.
func (s *Solver) mark(out *Point) string {
	mark := make([]byte, len(s.coils))
	for k, coil := range s.coils {
		if out.In[coil] {
			mark[k] = 1
		}
	}
	return string(mark)
}

// asking lists the coils that want to pull in or to let go.
func (s *Solver) asking(out *Point) []int {
	var list []int
	for _, coil := range s.coils {
		if s.pulled(out, coil) != out.In[coil] {
			list = append(list, coil)
		}
	}
	return list
}

// pulled: a coil pulls in from its pick-up voltage and lets go at its drop-out.
// Between, it stays as it is.
func (s *Solver) pulled(out *Point, coil int) bool {
	if slices.Contains(s.open, coil) {
		return false
	}
	releases, pulls := s.limits(out, coil)
	switch volts := math.Abs(out.Across(coil)); {
	case volts <= releases:
		return false
	case volts >= pulls:
		return true
	}
	return out.In[coil]
}

// limits are a coil's drop-out and pick-up voltage, which grow with the copper's
// heat.
func (s *Solver) limits(out *Point, coil int) (releases, pulls float64) {
	c := s.Network.Elements[coil].Load.Coil
	heat := tables.CopperAt(1, s.ambient(coil, &out.Position))
	return c.ReleasesV * heat, c.PullsV * heat
}

// turn moves the relays of coils that ask.
func (s *Solver) turn(out *Point, asking []int) {
	for _, coil := range asking {
		out.In[coil] = !out.In[coil]
	}
	s.move(out)
}

// move puts the relays' contacts where their coils have them.
func (s *Solver) move(out *Point) {
	for _, i := range s.relays {
		gate := s.Network.Elements[i].Gate
		s.state.Switch(s.branches[i], out.In[gate.Coil] != gate.Rest)
	}
}
