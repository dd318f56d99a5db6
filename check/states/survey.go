package states

import (
	"math"

	"hame/check/figures"
	"hame/check/network"
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
	v := &surveyor{solver: s, watch: watch, hands: hands(s.Network), thorough: thorough, sampled: sampled}
	v.out = &Survey{Worst: make([]Worst, elements), Volts: make([]Span, elements), Method: "all"}
	v.out.Covered = 1
	for _, h := range v.hands {
		v.out.Covered = min(v.out.Covered*float64(h.throws+1), figures.ManyPositions)
	}
	for _, m := range s.Network.Harness.Modes {
		v.out.Modes = append(v.out.Modes, v.visit(OfMode(m)))
	}
	v.frames()
	return v.out
}

// surveyor is the state of one survey.
type surveyor struct {
	solver *Solver
	watch  func(*Point)
	hands  []hand
	out    *Survey
	// sparing leaves out what relays that hold themselves would change.
	sparing bool
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

// frames surveys the settings of the switches in every frame.
func (v *surveyor) frames() {
	list := frames(v.solver.Network)
	live := make([][]hand, len(list))
	elements := max(1, len(v.solver.Network.Elements))
	work := 0
	for i := range list {
		live[i] = v.live(&list[i])
		work += settingsOf(live[i], 1+v.thorough)
	}
	if work <= v.thorough/elements {
		for i, frame := range list {
			v.each(frame, live[i])
		}
		return
	}
	limit := (v.sampled/elements + min(v.sampled, sampledPoints)) / len(list)
	bounds := v.bounds(list, live, limit)
	for i, frame := range list {
		v.most(frame, live[i], limit, bounds[i])
	}
}

// bounds works out the frames' bounds beside all else, in order.
func (v *surveyor) bounds(list []Position, live [][]hand, limit int) []chan []*bounder {
	answers := make([]chan []*bounder, len(list))
	for i := range answers {
		answers[i] = make(chan []*bounder, 1)
	}
	go func() {
		for i, frame := range list {
			if few(live[i], limit) {
				answers[i] <- nil
			} else {
				answers[i] <- v.solver.bounds(frame, nil, mostSplits)
			}
		}
	}()
	return answers
}

// few: the settings are no more than a limit.
func few(list []hand, limit int) bool { return settingsOf(list, limit+1) <= limit }

// each solves every setting. Switches that others leave dead make no further
// difference, but for the millivolts between two return points that loads on
// them carry round.
func (v *surveyor) each(frame Position, list []hand) {
	seen := map[string]bool{}
	for _, frame.Throws = range everything(list) {
		fed := v.solver.outline(&frame, nil).fed
		mark := make([]byte, len(list))
		for k, h := range list {
			if v.reached(fed, h) {
				mark[k] = byte(frame.Throws[h.device])
			}
		}
		if !seen[string(mark)] {
			seen[string(mark)] = true
			v.visit(frame)
		}
	}
}

// reached: a source feeds one side of the switch, or it is in a return.
func (v *surveyor) reached(fed []bool, h hand) bool {
	n := v.solver.Network
	for _, i := range h.contacts {
		e := &n.Elements[i]
		if fed[e.A] || fed[e.B] || n.Return(e.A) || n.Return(e.B) {
			return true
		}
	}
	return false
}

// live lists the switches that a source can reach.
func (v *surveyor) live(p *Position) []hand {
	fed := v.solver.outline(p, nil).fed
	var list []hand
	for _, h := range v.hands {
		if v.reached(fed, h) {
			list = append(list, h)
		}
	}
	return list
}

// most solves up to about limit settings and takes in the bound of the rest.
func (v *surveyor) most(frame Position, list []hand, limit int, bounds chan []*bounder) {
	if few(list, limit) {
		v.each(frame, list)
		return
	}
	v.out.Method = "bound"
	outline := v.solver.outline(&frame, nil)
	var all *Position
	for _, frame.Throws = range cover(v.solver.units(outline.can, list), max(limit, 1)) {
		v.sparing = len(frame.Throws) > 0 // once is enough: with all open
		if p := v.visit(frame); all == nil {
			all = &p.Position
		}
	}
	v.sparing = false
	for _, b := range <-bounds {
		v.raise(b, all)
	}
}

// nothingA is a current that is nothing but the solver's last digits.
const nothingA = 1e-6

// raise lifts what was found to a bound. Where nothing was found, the position
// with all closed stands for it.
func (v *surveyor) raise(b *bounder, all *Position) {
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

// visit solves a position and takes its currents in.
func (v *surveyor) visit(p Position) *Point {
	point := v.solver.Solve(p)
	v.take(point)
	if v.sparing {
		return point
	}
	if held := v.solver.held(point); held != nil {
		v.take(held)
	}
	return point
}

func (v *surveyor) take(point *Point) {
	n := v.solver.Network
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
		if n.Elements[i].Kind == network.Load {
			v.out.Volts[i].take(point.Across(i), &point.Position)
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
