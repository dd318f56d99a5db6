package states

import (
	"math"

	"hame/check/network"
)

// relieve finds, for each battery, what alternators give for certain while it
// gives anything: those that are joined to both of its poles in all positions,
// and whose volts lie so far above its own that they are at their limit by
// then. That much of the loads the battery is spared.
func (b *bounder) relieve() {
	n := b.s.Network
	clear(b.relief)
	for i := range n.Elements {
		e := &n.Elements[i]
		if e.Kind != network.Source || e.Source.Sort != "alternator" || b.supply[i].off {
			continue
		}
		pos, neg := b.always(e.A), b.always(e.B)
		up, low := b.drops(e.A), b.drops(e.B)
		for k := range n.Elements {
			s := &n.Elements[k]
			if s.Kind != network.Source || s.Source.Sort != "battery" || !pos[s.A] || !neg[s.B] {
				continue
			}
			drop := up[s.A] + low[s.B] + b.supply[i].ohm*b.supply[i].gives
			if !math.IsInf(drop, 1) && b.supply[i].volts-drop > b.supply[k].volts {
				b.relief[k] += b.supply[i].gives
			}
		}
	}
}
