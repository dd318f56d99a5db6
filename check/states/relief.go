package states

import (
	"math"

	"hame/check/network"
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
	n := b.s.Network
	relief, limit := make([]float64, len(b.relief)), make([]float64, len(b.cap))
	for i := range limit {
		limit[i] = math.Inf(1)
	}
	for i := range n.Elements {
		e := &n.Elements[i]
		if e.Kind != network.Source || e.Source.Sort == "converter" || b.supply[i].off {
			continue
		}
		pos, neg := b.always(e.A), b.always(e.B)
		up, low := b.drops(e.A, away), b.drops(e.B, towards)
		for k := range n.Elements {
			s := &n.Elements[k]
			if k == i || s.Kind != network.Source || s.Source.Sort != "battery" || !pos[s.A] || !neg[s.B] {
				continue
			}
			if volts := b.supply[i].volts - up[s.A] - low[s.B]; e.Source.Sort == "alternator" {
				if volts-b.supply[i].ohm*b.supply[i].gives > b.supply[k].volts {
					relief[k] += b.supply[i].gives
				}
			} else {
				spare := b.supply[k].volts - volts + b.supply[i].ohm*b.fore[i]
				limit[k] = min(limit[k], max(0, spare)/b.supply[k].ohm)
			}
		}
	}
	return b.spare(relief, limit)
}

// spare takes relief and limits over, with a little slack.
func (b *bounder) spare(relief, limit []float64) bool {
	const slack = 1e-3
	sound := true
	for i := range relief {
		sound = sound && b.relief[i] <= relief[i] && b.cap[i] >= limit[i]
		b.relief[i], b.cap[i] = relief[i], limit[i]*(1+slack)+slack
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
