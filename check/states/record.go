package states

import (
	"hame/check/network"
	"hame/lang/harness"
)

// Recording is a survey with every position that was solved for it, to be told
// again of a network that is the same but for names and places in the text.
type Recording struct {
	network *network.Network
	points  []*Point // in the order of the survey, the modes first
	survey  Survey
}

// Record is Find, and what it found to keep.
func Record(s *Solver, watch func(*Point)) (*Survey, *Recording) {
	r := &Recording{network: s.Network}
	found := Find(s, func(p *Point) {
		r.points = append(r.points, p)
		if watch != nil {
			watch(p)
		}
	})
	r.survey = *found
	return found, r
}

// Fits reports whether a network has the same nodes, elements, devices and modes
// as the one that was recorded. That their figures are the same is for the caller
// to know: it does not look at what loads draw and sources give.
func (r *Recording) Fits(n *network.Network) bool {
	was := r.network
	if was.Nodes != n.Nodes || len(was.Elements) != len(n.Elements) ||
		len(was.Harness.Devices) != len(n.Harness.Devices) || len(was.Harness.Modes) != len(n.Harness.Modes) {
		return false
	}
	for i := range n.Elements {
		a, b := &was.Elements[i], &n.Elements[i]
		if a.Kind != b.Kind || a.A != b.A || a.B != b.B || a.Ohm != b.Ohm {
			return false
		}
	}
	return true
}

// Replay tells a watcher what was recorded, in words of a network that fits, and
// answers with the survey in the same words.
func (r *Recording) Replay(n *network.Network, watch func(*Point)) *Survey {
	devices := make(map[*harness.Device]*harness.Device, len(n.Harness.Devices))
	for i, d := range r.network.Harness.Devices {
		devices[d] = n.Harness.Devices[i]
	}
	points := make(map[*Point]*Point, len(r.points))
	positions := make(map[*Position]*Position, len(r.points))
	for _, p := range r.points {
		again := p.in(n, devices)
		points[p], positions[&p.Position] = again, &again.Position
		if watch != nil {
			watch(again)
		}
	}
	return r.survey.in(points, positions)
}

// in is a point of an alike network.
func (p *Point) in(n *network.Network, devices map[*harness.Device]*harness.Device) *Point {
	again := *p
	again.network = n
	again.Position.Throws = make(map[*harness.Device]int, len(p.Position.Throws))
	for d, throw := range p.Position.Throws {
		again.Position.Throws[devices[d]] = throw
	}
	return &again
}

func (s *Survey) in(points map[*Point]*Point, positions map[*Position]*Position) *Survey {
	again := *s
	again.Modes, again.Worst, again.Volts = nil, make([]Worst, len(s.Worst)), make([]Span, len(s.Volts))
	for _, p := range s.Modes {
		again.Modes = append(again.Modes, points[p])
	}
	for i, w := range s.Worst {
		w.At = positions[w.At]
		again.Worst[i] = w
	}
	for i, v := range s.Volts {
		v.LeastAt, v.MostAt = positions[v.LeastAt], positions[v.MostAt]
		again.Volts[i] = v
	}
	return &again
}
