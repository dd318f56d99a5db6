package layered

// The measures of a channel: from a box to the first label or track, and from
// track to track.
const (
	marginMM = 1.5
	trackMM  = 2.2
	leastMM  = 4 // of a channel
)

// zone is where words stand in a channel: right of the boxes at its left, and
// left of those at its right.
type zone struct{ left, right float64 }

// route turns the wires on tracks and says how wide everything is.
func (s *sketch) route() {
	s.zones = make([]zone, len(s.channels))
	for w := range s.graph.Wires {
		s.room(w)
	}
	s.layerX = make([]float64, len(s.layers))
	s.channelX = make([]float64, len(s.channels)+1)
	x := 0.0
	for c := range s.channels {
		s.channelX[c] = x
		n := s.tracks(c)
		x += s.zones[c].left + s.zones[c].right
		if n > 0 {
			x += 2*marginMM + trackMM*float64(n-1)
		}
		if c > 0 && c < len(s.channels)-1 {
			x = max(x, s.channelX[c]+leastMM)
		}
		if c < len(s.layers) {
			s.layerX[c] = x
			x += s.layerWide[c]
		}
	}
	s.channelX[len(s.channels)] = x
}

// room keeps the channel of a wire's first end wide enough for its words.
func (s *sketch) room(w int) {
	long := s.graph.Wires[w].LabelMM
	if long == 0 {
		return
	}
	run := s.runs[w][0]
	z := &s.zones[s.channelOf(w)]
	if run.pins[0].far {
		z.right = max(z.right, long+2*marginMM)
	} else {
		z.left = max(z.left, long+2*marginMM)
	}
}

// channelOf is the first channel of a wire.
func (s *sketch) channelOf(w int) int {
	ends := s.graph.Wires[w].Ends
	return min(s.channel(ends[0]), s.channel(ends[1]))
}

func (s *sketch) trackX(c, track int) float64 {
	return s.channelX[c] + s.zones[c].left + marginMM + trackMM*float64(track)
}

// edge is where a pin's item ends.
func (s *sketch) edge(c int, p *pin) float64 {
	if p.far {
		return s.layerX[c]
	}
	return s.layerX[c-1] + s.layerWide[c-1]
}

// layout reads the result off.
func (s *sketch) layout() *Layout {
	l := &Layout{Crossings: s.crossings, Bends: s.bends, WidthMM: s.channelX[len(s.channels)]}
	for _, layer := range s.layers {
		for _, it := range layer {
			last := it.rows[len(it.rows)-1]
			l.HeightMM = max(l.HeightMM, last.y+last.down)
		}
	}
	for i, n := range s.graph.Nodes {
		p := Placed{LeftMM: s.layerX[n.Layer], RightMM: s.layerX[n.Layer] + s.layerWide[n.Layer]}
		for _, r := range s.boxes[i].rows {
			p.RowsMM = append(p.RowsMM, r.y)
		}
		l.Nodes = append(l.Nodes, p)
	}
	for w := range s.graph.Wires {
		l.Wires = append(l.Wires, s.path(w))
		l.Ends = append(l.Ends, s.landed(w))
	}
	return l
}

func (s *sketch) path(w int) Path {
	c := s.channelOf(w)
	run := s.runs[w]
	first, last := &run[0].pins[0], &run[len(run)-1].pins[1]
	p := Path{Points: []Point{{s.edge(c, first), first.y()}}}
	p.Label = Point{s.edge(c, first) + marginMM, first.y()}
	if first.far {
		p.Label.X, p.AtEnd = s.edge(c, first)-marginMM, true
	}
	for k, g := range run {
		p.Points = append(p.Points, s.corners(c+k, g)...)
	}
	p.Points = append(p.Points, Point{s.edge(c+len(run)-1, last), last.y()})
	if s.turned[w] {
		for i, j := 0, len(p.Points)-1; i < j; i, j = i+1, j-1 {
			p.Points[i], p.Points[j] = p.Points[j], p.Points[i]
		}
	}
	return p
}

// corners are those of a segment, in the wire's direction.
func (s *sketch) corners(c int, g *segment) []Point {
	from, to := g.pins[0].y(), g.pins[1].y()
	switch len(g.tracks) {
	case 0:
		return nil
	case 1:
		x := s.trackX(c, g.tracks[0].track)
		return []Point{{x, from}, {x, to}}
	}
	a, b := g.tracks[0], g.tracks[1] // the left half and the right, with a step between
	step := a.rights[0]
	one, two := s.trackX(c, a.track), s.trackX(c, b.track)
	if g.pins[0].far {
		one, two = two, one
	}
	return []Point{{one, from}, {one, step}, {two, step}, {two, to}}
}

// landed are a wire's ends, where they changed places too.
func (s *sketch) landed(w int) [2]End {
	ends := s.graph.Wires[w].Ends
	run := s.runs[w]
	pins := [2]*pin{&run[0].pins[0], &run[len(run)-1].pins[1]}
	if s.turned[w] {
		pins[0], pins[1] = pins[1], pins[0]
	}
	for i, p := range pins {
		ends[i].Row, ends[i].OffsetMM = p.row, p.off
	}
	return ends
}
