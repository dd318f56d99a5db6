package states

import (
	"math"
	"slices"

	"hame/lang/harness"
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
		v.gather(list, live, math.MaxInt, make([]chan []bound, len(list)))
		return
	}
	limit := (v.sampled/elements + min(v.sampled, sampledPoints)) / len(list)
	defer v.beside.Stop()
	v.gather(list, live, limit, v.bounds(list, live, limit))
}

// gather visits the positions of all frames, and takes in the bound of each
// frame that is not solved in all of its settings.
func (v *surveyor) gather(frames []Position, live [][]hand, limit int, bounds []chan []bound) {
	var list []visit
	last := make([]int, len(frames)) // by frame: where its visits end
	for i, frame := range frames {
		if few(live[i], limit) {
			list = v.each(list, frame, live[i])
		} else {
			v.out.Method = "bound"
			list = v.most(list, frame, live[i], limit)
		}
		last[i] = len(list)
	}
	var first *Point // of the frame
	frame := 0
	v.crew.solve(list, func(k int, a answer) {
		v.takeAll(a)
		if first == nil {
			first = a.point
		}
		if k+1 == last[frame] {
			v.raiseAll(bounds[frame], &first.Position)
			first, frame = nil, frame+1
		}
	})
}

// bounds works out the frames' bounds beside all else, in order.
func (v *surveyor) bounds(list []Position, live [][]hand, limit int) []chan []bound {
	answers, known := make([]chan []bound, len(list)), v.outlines
	for i := range answers {
		if !few(live[i], limit) {
			answers[i] = make(chan []bound, 1)
		}
	}
	v.beside.Go(func() {
		at := newDesk(v.solver.Network.Nodes, known)
		for i, frame := range list {
			switch {
			case answers[i] == nil:
			case v.beside.Ended() || v.solver.Stopped():
				answers[i] <- nil
			default:
				answers[i] <- v.solver.bounds(frame, nil, mostSplits, at)
			}
		}
	})
	return answers
}

// few: the settings are no more than a limit.
func few(list []hand, limit int) bool { return settingsOf(list, limit+1) <= limit }

// each lists every setting. Switches that others leave dead make no further
// difference, but for the millivolts between two return points that loads on
// them carry round.
func (v *surveyor) each(list []visit, frame Position, hands []hand) []visit {
	seen := map[string]bool{}
	mark := make([]byte, len(hands))
	for _, frame.Throws = range everything(hands) {
		fed := v.outline(&frame).fed
		for k, h := range hands {
			mark[k] = 0
			if v.reached(fed, h) {
				mark[k] = byte(frame.Throws[h.device])
			}
		}
		if !seen[string(mark)] {
			seen[string(mark)] = true
			list = append(list, visit{at: frame})
		}
	}
	return list
}

// reached: a source feeds one side of the switch, or it is in a return.
func (v *surveyor) reached(fed []bool, h hand) bool {
	for _, i := range h.contacts {
		if e := &v.solver.digests[i]; fed[e.a] || fed[e.b] || e.aBack || e.bBack {
			return true
		}
	}
	return false
}

// live lists the switches that a source can reach in a frame.
func (v *surveyor) live(p *Position) []hand {
	o := v.frame(p)
	if o.live == nil {
		o.live = make([]hand, 0, len(v.hands))
		for _, h := range v.hands {
			if v.reached(o.fed, h) {
				o.live = append(o.live, h)
			}
		}
	}
	return o.live
}

// most lists up to about limit settings.
func (v *surveyor) most(list []visit, frame Position, hands []hand, limit int) []visit {
	for _, frame.Throws = range v.cover(frame, hands, limit) {
		// What relays that hold themselves change is looked at with all open: once
		// is enough.
		list = append(list, visit{at: frame, sparing: len(frame.Throws) > 0})
	}
	return list
}

// covering is how switches were stepped through.
type covering struct {
	can   []bool
	hands []hand
	list  []map[*harness.Device]int
}

// cover lists the settings for a frame. It is the same for frames of one place of
// the key, whatever their temperature.
func (v *surveyor) cover(frame Position, hands []hand, limit int) []map[*harness.Device]int {
	can := v.frame(&frame).can
	same := func(a, b hand) bool { return a.device == b.device }
	for _, c := range v.covers {
		if slices.Equal(c.can, can) && slices.EqualFunc(c.hands, hands, same) {
			return c.list
		}
	}
	list := cover(v.solver.units(can, hands), max(limit, 1))
	v.covers = append(v.covers, covering{can, hands, list})
	return list
}
