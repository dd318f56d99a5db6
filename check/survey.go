package check

import "hame/check/states"

// survey tells again what was recorded of an alike harness, or else solves and
// records it.
func (w *work) survey(s *states.Solver, watch func(*states.Point)) *states.Survey {
	switch {
	case w.options.stopped():
		return nil
	case w.options.Memory == nil:
		return w.solve(s, watch)
	case w.recording != nil && w.recording.Fits(s.Network):
		return w.unlessStopped(w.recording.Replay(s.Network, w.heeding(watch)))
	}
	s.Stop = w.options.Stop
	found, recording := states.Record(s, w.heeding(watch))
	w.recording = recording
	return w.unlessStopped(found)
}

func (w *work) solve(s *states.Solver, watch func(*states.Point)) *states.Survey {
	s.Stop = w.options.Stop
	return w.unlessStopped(states.Find(s, w.heeding(watch)))
}

// heeding is a watcher that looks at nothing more once the run is stopped.
func (w *work) heeding(watch func(*states.Point)) func(*states.Point) {
	return func(p *states.Point) {
		if !w.options.stopped() {
			watch(p)
		}
	}
}

func (w *work) unlessStopped(found *states.Survey) *states.Survey {
	if w.options.stopped() {
		return nil
	}
	return found
}
