package states

import (
	"math"

	"hame/lang/harness"
)

// Survey is what all positions together give.
type Survey struct {
	Modes   []*Point // one for each of the harness's modes, as stated
	Worst   []Worst  // by element
	Covered int      // settings of the switches that were covered, once for each key and engine
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

// Find solves the declared modes and surveys all positions. It calls watch,
// which may be nil, for every position solved, the modes first, in the same
// order every time. A Point is the watcher's to keep.
func Find(s *Solver, watch func(*Point)) *Survey {
	v := &surveyor{solver: s, watch: watch, hands: hands(s.Network)}
	v.out = &Survey{Worst: make([]Worst, len(s.Network.Elements)), Method: "all"}
	for _, m := range s.Network.Harness.Modes {
		v.out.Modes = append(v.out.Modes, v.visit(OfMode(m)))
	}
	settings := v.settings()
	for _, frame := range frames(s.Network) {
		for _, throws := range settings {
			frame.Throws = throws
			v.visit(frame)
		}
	}
	v.out.Covered = len(settings) * len(differing(s.Network))
	return v.out
}

// surveyor is the state of one survey.
type surveyor struct {
	solver *Solver
	watch  func(*Point)
	hands  []hand
	out    *Survey
}

// visit solves a position and takes its currents in.
func (v *surveyor) visit(p Position) *Point {
	point := v.solver.Solve(p)
	for i, amps := range point.amps {
		w := &v.out.Worst[i]
		w.AtoB, w.BtoA = max(w.AtoB, amps), max(w.BtoA, -amps)
		if size := math.Abs(amps); size > w.Amps {
			w.Amps, w.At = size, &point.Position
		}
	}
	if v.watch != nil {
		v.watch(point)
	}
	return point
}

// maxSettings is how many settings of the switches are solved one by one.
const maxSettings = 1024

// settings lists every setting of the switches or, where there are too many,
// all open, all closed, and each closed alone.
func (v *surveyor) settings() []map[*harness.Device]int {
	total := 1
	for _, h := range v.hands {
		if total *= h.throws + 1; total > maxSettings {
			v.out.Method = "bound"
			return v.alone()
		}
	}
	list := make([]map[*harness.Device]int, total)
	for i := range list {
		list[i] = map[*harness.Device]int{}
		rest := i
		for _, h := range v.hands {
			if throw := rest % (h.throws + 1); throw > 0 {
				list[i][h.device] = throw
			}
			rest /= h.throws + 1
		}
	}
	return list
}

func (v *surveyor) alone() []map[*harness.Device]int {
	all := map[*harness.Device]int{}
	list := []map[*harness.Device]int{{}, all}
	for _, h := range v.hands {
		all[h.device] = 1
		for throw := 1; throw <= h.throws; throw++ {
			list = append(list, map[*harness.Device]int{h.device: throw})
		}
	}
	return list
}
