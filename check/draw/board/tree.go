package board

import (
	"cmp"
	"slices"

	"hame/lang/harness"
	"hame/lang/kinds"
)

// node is a place, reached by a bundle from the node before it.
type node struct {
	place *harness.Place
	in    *harness.Bundle // nil at the root
	next  []*node
	// loops are bundles to a place that is drawn elsewhere: they close a ring.
	loops []*harness.Bundle
	ends  []landing
}

// landing is a device at a place, and how many wire ends go to it.
type landing struct {
	device *harness.Device
	ends   int
}

// grow makes a tree of each part of the layout. The root is where the first
// battery or, without one, the first other supply sits; else the first place.
func grow(h *harness.Harness) []*node {
	ends := landings(h)
	seen := map[*harness.Place]bool{}
	done := map[*harness.Bundle]bool{}
	var trees []*node
	for _, p := range starts(h) {
		if seen[p] || len(p.Bundles) == 0 && len(ends[p]) == 0 {
			continue
		}
		trees = append(trees, spread(p, ends, seen, done))
	}
	return trees
}

// starts are all places, those of supplies first.
func starts(h *harness.Harness) []*harness.Place {
	var list []*harness.Place
	for _, names := range [][]string{{"battery"}, nil} {
		for _, d := range h.Devices {
			if d.At != nil && d.Is(kinds.Supply, names...) {
				list = append(list, d.At)
			}
		}
	}
	return append(list, h.Places...)
}

// landings are the devices of each place, in the order of the text.
func landings(h *harness.Harness) map[*harness.Place][]landing {
	all := map[*harness.Place][]landing{}
	for _, d := range h.Devices {
		if d.At == nil {
			continue
		}
		l := landing{device: d}
		for _, t := range d.Terminals {
			l.ends += len(t.Wires)
		}
		all[d.At] = append(all[d.At], l)
	}
	return all
}

// spread walks outwards from a place, nearest first, so that a ring is parted
// far from the root.
func spread(from *harness.Place, ends map[*harness.Place][]landing, seen map[*harness.Place]bool, done map[*harness.Bundle]bool) *node {
	seen[from] = true
	root := &node{place: from, ends: ends[from]}
	for queue := []*node{root}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for _, b := range at.place.Bundles {
			far := other(b, at.place)
			switch {
			case done[b] || far == nil:
			case seen[far]:
				at.loops = append(at.loops, b)
				done[b] = true
			default:
				seen[far], done[b] = true, true
				n := &node{place: far, in: b, ends: ends[far]}
				at.next = append(at.next, n)
				queue = append(queue, n)
			}
		}
	}
	return root
}

// other is the far end of a bundle; nil where it could not be bound.
func other(b *harness.Bundle, p *harness.Place) *harness.Place {
	if b.From == p {
		return b.To
	}
	return b.From
}

// heaviestFirst lists what follows a node, the bundle of most wires first.
func (n *node) heaviestFirst() []*node {
	list := slices.Clone(n.next)
	slices.SortStableFunc(list, func(a, b *node) int { return cmp.Compare(len(b.in.Members), len(a.in.Members)) })
	return list
}
