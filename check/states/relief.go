package states

import (
	"math"
)

// relieve finds what other sources spare a battery. The answer is false where
// what was taken for spared is more than what follows from the currents that it
// led to.
//
// An alternator that is joined to both poles of the battery in all positions,
// and whose volts lie so far above the battery's that it is at its limit before
// the battery gives anything, gives that much first. And a battery that is
// joined so holds its volts up, so that another gives no more than what its own
// resistance lets out against those.
func (b *bounder) relieve() bool {
	sources := b.s.sources
	relief, limit := make([]float64, len(sources)), make([]float64, len(sources)) // by source
	for j := range limit {
		limit[j] = math.Inf(1)
	}
	for _, i := range sources {
		if b.s.Network.Elements[i].Source.Sort != "converter" && !b.supply[i].off {
			b.relieved(i, relief, limit)
		}
	}
	return b.spare(relief, limit)
}

// relieved adds what one source spares the batteries that it is always joined to.
func (b *bounder) relieved(i int, relief, limit []float64) {
	n := b.s.Network
	e := &n.Elements[i]
	pos, neg := b.joinedTo(e.A), b.joinedTo(e.B)
	ranks := b.forest.ranks
	var up, low []float64
	for j, k := range b.s.sources {
		s := &n.Elements[k]
		if k == i || s.Source.Sort != "battery" || !pos[s.A] || !neg[s.B] {
			continue
		}
		if up == nil {
			up, low = b.drops(e.A, away), b.drops(e.B, towards)
			defer b.d.give(up, low)
		}
		if volts := b.supply[i].volts - up[ranks[s.A]] - low[ranks[s.B]]; e.Source.Sort == "alternator" {
			if volts-b.supply[i].ohm*b.supply[i].gives > b.supply[k].volts {
				relief[j] += b.supply[i].gives
			}
		} else {
			spare := b.supply[k].volts - volts + b.supply[i].ohm*b.fore[i]
			limit[j] = min(limit[j], max(0, spare)/b.supply[k].ohm)
		}
	}
}

// spare takes relief and limits over, with a little slack.
func (b *bounder) spare(relief, limit []float64) bool {
	const slack = 1e-3
	sound := true
	for j, i := range b.s.sources {
		sound = sound && b.relief[i] <= relief[j] && b.cap[i] >= limit[j]
		b.relief[i], b.cap[i] = relief[j], limit[j]*(1+slack)+slack
	}
	return sound
}

// alone forgets what other sources spare batteries.
func (b *bounder) alone() {
	clear(b.relief)
	for i := range b.cap {
		b.cap[i] = math.Inf(1)
	}
}
