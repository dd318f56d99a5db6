package protect

import "hame/check/network"

// bridges marks the protective devices that a fault's current cannot get
// round: the bridges of the graph of regions, all bare ones taken as one
// (Tarjan's low-link numbers, without recursion).
func (r *Reach) bridges() {
	r.bridge = make([]bool, len(r.n.Elements))
	b := &bridging{r: r, depth: make([]int32, r.count+1), low: make([]int32, r.count+1)}
	b.push(allBare, -1)
	for len(b.stack) > 0 {
		b.step()
	}
}

// allBare stands for all bare regions.
const allBare = -1

type bridging struct {
	r          *Reach
	depth, low []int32 // by region, allBare's first; a depth of 0: not come to yet
	stack      []frame
	links      []link // of the whole stack; those of its top end it
}

// frame is one region on the way down.
type frame struct {
	region, by int // by: the element that led here
	first      int // of its links
	next       int // the one to look at
}

// link is one way out of a region.
type link struct{ element, to int }

func (b *bridging) push(region, by int) {
	b.depth[region+1] = int32(len(b.stack) + 1)
	b.low[region+1] = b.depth[region+1]
	b.stack = append(b.stack, frame{region, by, len(b.links), len(b.links)})
	if region != allBare {
		b.leave(region)
		return
	}
	for _, at := range b.r.nearest {
		b.leave(at)
	}
}

// leave adds the ways out of a region to the links.
func (b *bridging) leave(at int) {
	for _, f := range b.r.fuses[at] {
		e := &b.r.n.Elements[f]
		b.links = append(b.links, link{f, b.name(b.r.of[e.A] + b.r.of[e.B] - at)})
	}
	for _, d := range b.r.ways[at] {
		b.links = append(b.links, link{d, b.name(b.r.of[b.r.n.Elements[d].B])})
	}
}

func (b *bridging) name(region int) int {
	if b.r.bare[region] {
		return allBare
	}
	return region
}

func (b *bridging) step() {
	top := &b.stack[len(b.stack)-1]
	if top.next == len(b.links) {
		b.pop()
		return
	}
	l := b.links[top.next]
	top.next++
	if l.element == top.by || l.to == top.region {
		return
	}
	if d := b.depth[l.to+1]; d > 0 {
		b.low[top.region+1] = min(b.low[top.region+1], d)
		return
	}
	b.push(l.to, l.element)
}

func (b *bridging) pop() {
	top := b.stack[len(b.stack)-1]
	b.stack, b.links = b.stack[:len(b.stack)-1], b.links[:top.first]
	if len(b.stack) == 0 {
		return
	}
	above := b.stack[len(b.stack)-1].region + 1
	low := b.low[top.region+1]
	b.low[above] = min(b.low[above], low)
	if low > b.depth[above] && b.r.n.Elements[top.by].Kind == network.Fuse {
		b.r.bridge[top.by] = true
	}
}
