package circuit

// islands are the parts of a network that are joined in one state, as a forest
// of places: each tree is one island. A converter does not join its two sides.
type islands struct {
	parent []int32
	live   []bool // by root: holds a source
	ground []int32
}

func newIslands(places int) islands {
	return islands{make([]int32, places), make([]bool, places), make([]int32, places)}
}

func (s *islands) reset() {
	for k := range s.parent {
		s.parent[k] = int32(k)
		s.live[k] = false
		s.ground[k] = none
	}
}

func (s *islands) root(k int32) int32 {
	for s.parent[k] != k {
		s.parent[k] = s.parent[s.parent[k]]
		k = s.parent[k]
	}
	return k
}

func (s *islands) join(a, c int32) {
	a, c = s.root(a), s.root(c)
	if a < c { // later places hang more often on many others
		a, c = c, a
	}
	s.parent[c] = a
}

// settle finds the islands of a plan, which of them hold a source, and the
// place in each of those that counts as 0 V.
func (s *islands) settle(n *Net, p *plan) {
	s.reset()
	s.joinAll(n, p)
	for b, l := range p.laws {
		if l == nil || !p.on[b] {
			continue
		}
		if _, ok := l.(sourceLaw); ok {
			s.live[s.root(n.first[b])] = true
		}
	}
	s.wake(n, p)
	s.refer(n, p)
}

func (s *islands) joinAll(n *Net, p *plan) {
	for b, on := range p.on {
		if on && (p.laws[b] == nil || !isPort(p.laws[b])) {
			s.join(n.first[b], n.second[b])
		}
	}
	for _, c := range n.converters {
		if p.converts(c) {
			s.join(n.first[c.in], n.second[c.in])
			s.join(n.first[c.out], n.second[c.out])
		}
	}
}

// wake passes life through converters, from live inputs to their outputs.
func (s *islands) wake(n *Net, p *plan) {
	for again := true; again; {
		again = false
		for _, c := range n.converters {
			out := s.root(n.first[c.out])
			if p.converts(c) && s.live[s.root(n.first[c.in])] && !s.live[out] {
				s.live[out], again = true, true
			}
		}
	}
}

// refer chooses the 0 V of each live island.
func (s *islands) refer(n *Net, p *plan) {
	for _, k := range n.references {
		s.offer(k)
	}
	for b, l := range p.laws {
		if l == nil || !p.on[b] {
			continue
		}
		if _, ok := l.(sourceLaw); ok {
			s.offer(n.second[b])
		}
	}
	for _, c := range n.converters {
		if p.converts(c) {
			s.offer(n.second[c.out])
		}
	}
}

func (s *islands) offer(k int32) {
	if r := s.root(k); s.live[r] && s.ground[r] == none {
		s.ground[r] = k
	}
}

// converts tells whether both sides of a converter are on and still its own.
func (p *plan) converts(c ports) bool {
	_, in := p.laws[c.in].(inPort)
	_, out := p.laws[c.out].(outPort)
	return in && out && p.on[c.in] && p.on[c.out]
}
