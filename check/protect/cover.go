package protect

import (
	"cmp"
	"slices"

	"hame/check/network"
	"hame/lang/slab"
)

// Cover is how one wire is protected, over all sources.
type Cover struct {
	By    []*network.Device // those nearer to a source before those behind them; each once
	Paths []Path
	names []string // of By
}

// Path is how one source reaches a wire.
type Path struct {
	Source int               // its element
	Chain  []*network.Device // the devices on the way, the source's end first
	Alone  []*network.Device // those of them that a fault cannot get round
	Bare   bool              // no device at all
	Known  bool              // FarM is known: all lengths on the way are
	FarM   float64           // where Bare: along the conductors to the wire's far end
	reach  *Reach
}

// Names are those of the devices, in the order of By; the asker's to read, not to
// change.
func (c *Cover) Names() []string { return c.names }

// none covers what no source feeds.
var none = &Cover{}

// covering works out the covers of wires. All wires of a region have the same, but
// for how far from a source they lie that reaches them with no device.
type covering struct {
	regions
	sources []*Reach
	alike   []Cover // by region
	done    []bool  // by region

	devices slab.Of[*network.Device]
	paths   slab.Of[Path]
	names   slab.Of[string]
	// What follows is memory to work in.
	found       []Path
	chain, list []int // Fuse elements
	rank        []int // by element: the furthest place on any path, from 1; 0 where it is on none
}

func newCovering(g regions, sources []*Reach) *covering {
	return &covering{
		regions: g, sources: sources,
		alike: make([]Cover, g.count), done: make([]bool, g.count), rank: make([]int, len(g.n.Elements)),
	}
}

// cover collects how all sources reach a wire's element.
func (c *covering) cover(wire int) *Cover {
	e := &c.n.Elements[wire]
	if c.n.Return(e.A) || c.n.Return(e.B) {
		return none
	}
	region := c.of[e.A]
	if !c.done[region] {
		c.done[region], c.alike[region] = true, c.ofRegion(region)
	}
	all := &c.alike[region]
	if !slices.ContainsFunc(all.Paths, func(p Path) bool { return p.Bare }) {
		return all
	}
	own := &Cover{all.By, c.paths.Take(len(all.Paths)), all.names}
	copy(own.Paths, all.Paths)
	for k := range own.Paths {
		if p := &own.Paths[k]; p.Bare {
			p.FarM, p.Known = p.reach.FarM(wire)
		}
	}
	return own
}

// ofRegion is what all wires of a region share. The devices of all paths come each
// once, and none before one that stands nearer to a source than it does on any path.
func (c *covering) ofRegion(region int) Cover {
	c.found, c.list = c.found[:0], c.list[:0]
	for _, s := range c.sources {
		chain, reached := s.chain(region, c.chain[:0])
		c.chain = chain
		if !reached {
			continue
		}
		c.found = append(c.found, c.path(s, region))
		for at, i := range chain {
			if c.rank[i] == 0 {
				c.list = append(c.list, i)
			}
			c.rank[i] = max(c.rank[i], at+1)
		}
	}
	slices.SortStableFunc(c.list, func(a, b int) int { return cmp.Compare(c.rank[a], c.rank[b]) })
	of := Cover{c.devices.Take(len(c.list)), c.paths.Take(len(c.found)), c.names.Take(len(c.list))}
	copy(of.Paths, c.found)
	for k, i := range c.list {
		d := c.n.Elements[i].Fuse
		of.By[k], of.names[k], c.rank[i] = d, d.Name, 0
	}
	return of
}

// path is how a source reaches a region, over the chain that was just found; of a
// bare one how far it lies is left out.
func (c *covering) path(s *Reach, region int) Path {
	p := Path{Source: s.Source, Bare: s.bare[region], Chain: c.devices.Take(len(c.chain)), reach: s}
	alone := 0
	for k, i := range c.chain {
		p.Chain[k] = c.n.Elements[i].Fuse
		if s.bridge[i] {
			alone++
		}
	}
	p.Alone = c.devices.Take(alone)[:0]
	for k, i := range c.chain {
		if s.bridge[i] {
			p.Alone = append(p.Alone, p.Chain[k])
		}
	}
	return p
}

// chain adds the Fuse elements on the way to a region to a list, the source's end
// first; false where the source does not reach it.
func (r *Reach) chain(region int, list []int) ([]int, bool) {
	for !r.bare[region] {
		in := r.parent[region]
		if in.element == 0 {
			return list, false
		}
		if element := int(in.element - 1); r.n.Elements[element].Kind == network.Fuse {
			list = append(list, element)
		}
		region = int(in.from)
	}
	slices.Reverse(list)
	return list, true
}
