package sizing

// thicken gives wires thicker sizes until nothing is found that a thicker one
// would mend. Every finding of a round is answered before the next check, so a
// large harness takes hardly more rounds than a small one.
func (d *desk) thicken() {
	for {
		next := d.answer(d.troubles())
		if len(next) == 0 {
			return
		}
		d.set(next)
		v := d.check()
		if v == nil {
			return
		}
		d.now = v
	}
}

// steps are the sizes that wires are to have next.
type steps map[*target]int

// answer chooses the wires to thicken for a list of charges by a step: those
// that are named; where there are none, of ways those that give the most for
// their copper. What is too thin for its current comes first, because of what it
// loses the loads take currents that they will not take in the end.
func (d *desk) answer(list []charge) steps {
	next := steps{}
	var ways []pull
	for _, c := range list {
		p := d.pullOf(d.now, c)
		for _, t := range p.all {
			if t.step < t.most {
				next[t] = t.step + 1
			}
		}
		if len(p.way) > 0 {
			ways = append(ways, p)
		}
	}
	if len(next) == 0 {
		d.share(ways, next)
	}
	return next
}

// share spreads copper over ways that have wires in common: always a step of
// the wire that gives the most volts to all of them for its copper, until each
// should get enough. A wire grows by a step at most before the next check, and
// a way of which no volts are known has one that does.
func (d *desk) share(ways []pull, next steps) {
	for {
		best, most := (*target)(nil), 0.0
		for _, t := range d.targets {
			if worth := d.worth(t, ways, next); worth > most {
				best, most = t, worth
			}
		}
		if best == nil {
			return
		}
		next[best] = best.step + 1
		for i := range ways {
			ways[i].got(d, best)
		}
	}
}

// worth is what a step of a wire gives, in V for each mm2 m, to the ways that
// want more.
func (d *desk) worth(t *target, ways []pull, next steps) float64 {
	if _, grown := next[t]; grown || t.step >= t.most {
		return 0
	}
	sum := 0.0
	for i := range ways {
		if ways[i].excess < 0 {
			continue
		}
		for _, s := range ways[i].way {
			if s.target == t {
				sum += d.gainV(s, t.step)
			}
		}
	}
	const shortM = 1e-3
	return sum / max(d.copper(t, t.step), shortM)
}

// got takes off what a step of a wire gives a way.
func (p *pull) got(d *desk, t *target) {
	for _, s := range p.way {
		if s.target == t {
			p.excess -= d.gainV(s, t.step)
			if p.excess <= 0 {
				p.excess = -1
			}
		}
	}
}
