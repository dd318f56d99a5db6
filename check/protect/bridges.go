package protect

import "hame/check/network"

// bridges marks the protective devices that a fault's current cannot get
// round: the bridges of the graph of regions, all bare ones taken as one
// (Tarjan's low-link numbers, without recursion).
func (r *Reach) bridges() {
	const root = -1
	b := &bridging{r: r, depth: map[int]int{root: 0}, low: map[int]int{root: 0}}
	b.push(root, -1)
	for len(b.stack) > 0 {
		b.step()
	}
}

type bridging struct {
	r          *Reach
	depth, low map[int]int
	stack      []*frame
}

// frame is one region on the way down.
type frame struct {
	region, by int // by: the element that led here
	links      []link
}

// link is one way out of a region.
type link struct{ element, to int }

func (b *bridging) push(region, by int) {
	b.stack = append(b.stack, &frame{region, by, b.links(region)})
}

// links lists the ways out of a region; -1 stands for all bare ones.
func (b *bridging) links(region int) []link {
	var list []link
	for _, at := range b.members(region) {
		for _, f := range b.r.fuses[at] {
			e := b.r.n.Elements[f]
			list = append(list, link{f, b.name(b.r.of[e.A] + b.r.of[e.B] - at)})
		}
		for _, d := range b.r.ways[at] {
			list = append(list, link{d, b.name(b.r.of[b.r.n.Elements[d].B])})
		}
	}
	return list
}

func (b *bridging) members(region int) []int {
	if region >= 0 {
		return []int{region}
	}
	var list []int
	seen := map[int]bool{}
	for _, node := range b.r.order {
		if at := b.r.of[node]; !seen[at] {
			seen[at] = true
			list = append(list, at)
		}
	}
	return list
}

func (b *bridging) name(region int) int {
	if b.r.bare[region] {
		return -1
	}
	return region
}

func (b *bridging) step() {
	top := b.stack[len(b.stack)-1]
	if len(top.links) == 0 {
		b.pop(top)
		return
	}
	l := top.links[0]
	top.links = top.links[1:]
	if l.element == top.by || l.to == top.region {
		return
	}
	if d, seen := b.depth[l.to]; seen {
		b.low[top.region] = min(b.low[top.region], d)
		return
	}
	b.depth[l.to] = len(b.stack)
	b.low[l.to] = len(b.stack)
	b.push(l.to, l.element)
}

func (b *bridging) pop(top *frame) {
	b.stack = b.stack[:len(b.stack)-1]
	if len(b.stack) == 0 {
		return
	}
	above := b.stack[len(b.stack)-1].region
	b.low[above] = min(b.low[above], b.low[top.region])
	if b.low[top.region] > b.depth[above] && b.r.n.Elements[top.by].Kind == network.Fuse {
		b.r.bridge[top.by] = true
	}
}
