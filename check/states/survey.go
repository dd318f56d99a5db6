package states

import (
	"math"

	"hame/check/figures"
	"hame/check/network"
	"hame/lang/beside"
)

// Survey is what all positions together give.
type Survey struct {
	Modes   []*Point // one for each of the harness's modes, as stated
	Worst   []Worst  // by element
	Volts   []Span   // by element, of loads: what they got while they drew
	Covered float64  // settings of the switches that were covered, counted up to figures.ManyPositions
	Method  string   // "all", or "bound" where there are too many to solve each
}

// Worst is the greatest current of an element over all positions and corners.
type Worst struct {
	Amps  float64   // the greatest magnitude
	AtoB  float64   // the greatest from A to B; of a source, what it gives
	BtoA  float64   // the greatest the other way
	At    *Position // where it flows; nil where nothing ever does
	Bound bool      // nothing above Amps can flow, and At comes nearest
}

// Span is the least and the greatest volts across a load, A above B, over the
// positions that were solved and in which it drew anything.
type Span struct {
	Least, Most     float64
	LeastAt, MostAt *Position // nil where it never drew
}

// Find solves the declared modes and surveys all positions. It calls watch,
// which may be nil, for every position solved, the modes first, in the same
// order every time. A Point is the watcher's to keep.
//
// The key and engine go with each corner of temperature and charge; of those
// that this network cannot tell apart one is taken, and switches that stand
// dead in one do not multiply it. Where the settings are few each is solved.
// Where they are many, those are solved that take every independent part
// through its own, and no element's current is put below what a bound proves
// (see bounder).
func Find(s *Solver, watch func(*Point)) *Survey {
	return find(s, watch, thorough, sampled)
}

func find(s *Solver, watch func(*Point), thorough, sampled int) *Survey {
	elements := len(s.Network.Elements)
	v := &surveyor{solver: s, watch: watch, hands: hands(s.Network), beside: beside.New(), thorough: thorough, sampled: sampled}
	v.out = &Survey{Worst: make([]Worst, elements), Volts: make([]Span, elements), Method: "all"}
	v.out.Covered = 1
	for _, h := range v.hands {
		v.out.Covered = min(v.out.Covered*float64(h.throws+1), figures.ManyPositions)
	}
	v.crew.solvers = []*Solver{s}
	v.modes()
	v.frames()
	return v.out
}

// surveyor is the state of one survey.
type surveyor struct {
	solver *Solver
	watch  func(*Point)
	hands  []hand
	out    *Survey
	crew   crew
	beside *beside.Group // who works out the bounds
	drawn  *bounder      // the room for outlines
	covers []covering
	outlines
	// Work that is done, as the constants say.
	thorough, sampled int
}

const (
	// thorough is the work, in elements solved, that is done to solve every
	// position one by one.
	thorough = 250_000
	// sampled is the work that is done where that is not enough, and a number
	// of points for a network of any size.
	sampled       = 10_000
	sampledPoints = 30
)

// modes solves what the harness declares.
func (v *surveyor) modes() {
	var list []visit
	for _, m := range v.solver.Network.Harness.Modes {
		list = append(list, visit{at: OfMode(m)})
	}
	v.crew.solve(list, func(_ int, a answer) {
		v.takeAll(a)
		v.out.Modes = append(v.out.Modes, a.point)
	})
}

// nothingA is a current that is nothing but the solver's last digits.
const nothingA = 1e-6

// raiseAll lifts what was found in a frame to its bounds; nil for one that was
// solved in all of its settings.
func (v *surveyor) raiseAll(bounds chan []bound, all *Position) {
	if bounds == nil {
		return
	}
	select {
	case list := <-bounds:
		for _, b := range list {
			v.raise(b, all)
		}
	case <-v.beside.Over():
		v.beside.Wait()
	}
}

// raise lifts what was found to a bound. Where nothing was found, the position
// with all closed stands for it.
func (v *surveyor) raise(b bound, all *Position) {
	const alike = 1e-6
	for i := range v.out.Worst {
		w := &v.out.Worst[i]
		w.AtoB, w.BtoA = max(w.AtoB, b.fore[i]), max(w.BtoA, b.back[i])
		if most := max(w.AtoB, w.BtoA); most > w.Amps*(1+alike)+nothingA {
			w.Amps, w.Bound = most, true
			if w.At == nil {
				w.At = all
			}
		}
	}
}

// takeAll takes a visit's currents in.
func (v *surveyor) takeAll(a answer) {
	v.take(a.point)
	if a.held != nil {
		v.take(a.held)
	}
}

func (v *surveyor) take(point *Point) {
	for i, amps := range point.amps {
		w := &v.out.Worst[i]
		size := math.Abs(amps)
		if size <= nothingA {
			continue
		}
		w.AtoB, w.BtoA = max(w.AtoB, amps), max(w.BtoA, -amps)
		if size > w.Amps {
			w.Amps, w.At, w.Bound = size, &point.Position, false
		}
		if e := &v.solver.digests[i]; e.kind == network.Load {
			v.out.Volts[i].take(point.volts[e.a]-point.volts[e.b], &point.Position)
		}
	}
	if v.watch != nil {
		v.watch(point)
	}
}

func (s *Span) take(volts float64, at *Position) {
	if s.LeastAt == nil || volts < s.Least {
		s.Least, s.LeastAt = volts, at
	}
	if s.MostAt == nil || volts > s.Most {
		s.Most, s.MostAt = volts, at
	}
}
