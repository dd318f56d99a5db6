package states

import "hame/check/network"

// latches lists the coils that their own relay's closing contact may feed.
func latches(n *network.Network, relays []int) []int {
	var list []int
	for _, i := range relays {
		e := &n.Elements[i]
		if e.Gate.Rest {
			continue
		}
		coil := &n.Elements[e.Gate.Coil]
		behind := findParts(n, []int{e.A, e.B}, func(k int) bool { return k != i && carries(&n.Elements[k]) })
		if behind.bus[coil.A] || behind.bus[coil.B] {
			list = with(list, e.Gate.Coil)
		}
	}
	return list
}

// carries: current may pass on.
func carries(e *network.Element) bool {
	return e.Kind != network.Load && e.Kind != network.Source
}

// with adds to a list what it does not hold yet.
func with(list []int, x int) []int {
	for _, have := range list {
		if have == x {
			return list
		}
	}
	return append(list, x)
}
