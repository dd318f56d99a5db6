package board

import (
	"fmt"
	"math"

	"hame/check/draw"
)

// Of the board, in mm on the page.
const (
	fanMM     = 30.0 // how far along a branch spreads from its point, at most
	leastFan  = 2.0
	pegMM     = 1.6
	laneGapMM = 6.0
)

// peg is a place on the board.
type peg struct {
	node  *node
	lane  int
	at    draw.Point
	bent  draw.Point // where its bundle has spread and runs straight
	true  bool       // its bundle is drawn in its true length
	lines []string
	next  []*peg
}

// toScale draws every bundle in its length by the scale. The heaviest bundle goes
// straight on; the others spread to lanes of their own above and below.
func (s *sketch) toScale(root *node) {
	top, above, below := s.lay(root)
	top.lanes(above)
	heights := make([]lane, above+below+1)
	top.measure(heights, float64(s.options.Scale))
	middles := stack(heights)
	short := 0
	top.set(draw.Point{X: 0, Y: middles[top.lane]}, middles, float64(s.options.Scale), &short)
	s.pegs(top)
	p := s.picture
	p.TrueSize = true
	p.Describe = fmt.Sprintf("The bundles in their lengths at a scale of 1:%d; pegs are places.", s.options.Scale)
	note := fmt.Sprintf("Scale 1:%d. Bundles are drawn in their lengths, from peg to peg along the line.", s.options.Scale)
	if short > 0 {
		note += fmt.Sprintf(" %d drawn longer than they are, dashed: the length that is written holds.", short)
	}
	s.finish(note)
}

// lay numbers the lanes from a node's own, 0: those above are negative. It tells
// how many it takes above and below.
func (s *sketch) lay(n *node) (p *peg, above, below int) {
	p = &peg{node: n, lines: n.about(s.harness.SlackM)}
	for i, next := range n.heaviestFirst() {
		hung, up, down := s.lay(next)
		switch {
		case i == 0:
			above, below = up, down
		case above <= below:
			hung.lane = -(above + down + 1)
			above += up + down + 1
		default:
			hung.lane = below + up + 1
			below += up + down + 1
		}
		p.next = append(p.next, hung)
	}
	return p, above, below
}

// lanes turns lanes counted from the node before into lanes of the board.
func (p *peg) lanes(own int) {
	p.lane += own
	for _, next := range p.next {
		next.lanes(p.lane)
	}
}

// lane is the room that a lane's words take above and below its line.
type lane struct{ up, down float64 }

func (p *peg) measure(lanes []lane, scale float64) {
	l := &lanes[p.lane]
	half := p.broad(scale) / 2
	l.up = max(l.up, lift(half)+2*lineMM)
	l.down = max(l.down, max(half, pegMM)+float64(len(p.lines)+1)*lineMM)
	for _, next := range p.next {
		next.measure(lanes, scale)
	}
}

// lift is how far above its line a bundle's words stand: clear of it, and of pegs.
func lift(half float64) float64 { return max(half, pegMM) + 1 }

// broad is how broad the bundle to a peg is drawn: as thick as it is, where that
// can be seen.
func (p *peg) broad(scale float64) float64 {
	if p.node.in == nil {
		return 0
	}
	d := p.node.in.DiameterMM
	return max(thick(d), d/scale)
}

// stack gives the height of each lane's line.
func stack(lanes []lane) []float64 {
	middles := make([]float64, len(lanes))
	y := 0.0
	for i, l := range lanes {
		middles[i] = y + l.up
		y += l.up + l.down + laneGapMM
	}
	return middles
}

// set sets a peg, and those after it by the lengths of their bundles.
func (p *peg) set(at draw.Point, middles []float64, scale float64, short *int) {
	p.at = at
	fan := fanOf(p, middles, scale)
	for _, next := range p.next {
		longMM := next.node.in.LengthM * 1000 / scale
		dy := middles[next.lane] - at.Y
		slant := math.Hypot(fan, dy)
		next.true = slant <= longMM
		if !next.true {
			*short++
		}
		next.bent = draw.Point{X: at.X + fan, Y: middles[next.lane]}
		next.set(next.bent.Add(max(longMM-slant, 0), 0), middles, scale, short)
	}
}

// fanOf is how far along all bundles of a peg spread: as far for each, so that
// none crosses another, and no farther than the shortest of them allows.
func fanOf(p *peg, middles []float64, scale float64) float64 {
	fan := fanMM
	for _, next := range p.next {
		longMM := next.node.in.LengthM * 1000 / scale
		dy := middles[next.lane] - middles[p.lane]
		if along := longMM*longMM - dy*dy; along > leastFan*leastFan {
			fan = min(fan, math.Sqrt(along))
		}
	}
	return fan
}

// pegs draws the bundle to a peg, the peg, and all after it.
func (s *sketch) pegs(p *peg) {
	for _, next := range p.next {
		s.run(p, next)
	}
	s.peg(p)
	for _, next := range p.next {
		s.pegs(next)
	}
}

func (s *sketch) run(from, to *peg) {
	b := to.node.in
	broad := to.broad(float64(s.options.Scale))
	head, lines := label(b)
	items := strand([]draw.Point{from.at, to.bent, to.at}, broad, !to.true)
	room := to.room() - 2*pegMM
	up := lift(broad / 2)
	taken := to.bent.X
	for i, words := range []string{lines[0], head} {
		if cut := draw.Cut(words, typeMM, i == 1, room); cut != "" {
			t := draw.Text{At: to.bent.Add(0, -up-float64(i)*lineMM), Words: cut, SizeMM: typeMM, Bold: i == 1}
			items, taken = append(items, t), max(taken, t.Box().Right)
		}
	}
	if to.true {
		items = append(items, s.marks(from, to, taken, broad/2)...)
	}
	s.picture.Add(draw.Group{Sort: draw.Bundle, Name: b.Name, Tip: head, Items: items})
}

// room is how long the words along a bundle may be: as long as its straight part,
// and past the end of one that leads no farther, where nothing else lies.
func (p *peg) room() float64 {
	straight := p.at.X - p.bent.X
	if p.node.in == nil || len(p.next) == 0 {
		return max(straight, cardMM)
	}
	return straight
}

// peg draws a place: what stands at it is written below the line that comes in,
// where nothing else runs.
func (s *sketch) peg(p *peg) {
	items := []draw.Item{draw.Circle{Centre: p.at, RadiusMM: pegMM, Ink: draw.Ink{WidthMM: 0.4, Colour: draw.Black, Fill: draw.Paper}}}
	at, anchor := p.at.Add(0, max(pegMM, p.broad(float64(s.options.Scale))/2)), draw.End
	if p.node.in != nil && p.room() > p.at.X-p.bent.X {
		at.X, anchor = p.bent.X, draw.Start
	}
	for i, words := range append([]string{p.node.place.Name}, p.lines...) {
		at.Y += lineMM
		if cut := draw.Cut(words, typeMM, i == 0, p.room()); cut != "" {
			items = append(items, draw.Text{At: at, Words: cut, SizeMM: typeMM, Anchor: anchor, Bold: i == 0})
		}
	}
	s.picture.Add(draw.Group{Sort: draw.Place, Name: p.node.place.Name, Items: items})
}
