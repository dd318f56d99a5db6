package board

import (
	"hame/check/draw"
)

// Of the overview, in mm.
const (
	padMM   = 2.0  // inside a card
	trackMM = 2.5  // between lines that leave the same card
	gapMM   = 5.0  // between cards
	leadMM  = 4.0  // before and after a bundle's label
	cardMM  = 75.0 // the widest card
)

// card is a place on the overview.
type card struct {
	node   *node
	lines  []string
	box    draw.Box
	high   float64 // of all that hangs on it
	next   []*card
	labels [][]string // of the bundles to next
}

// overview draws places as cards, from the root at the left outwards, and the
// bundles between them.
func (s *sketch) overview(root *node) {
	top := s.card(root)
	var columns []column
	top.widen(&columns, 0)
	top.place(columns, 0, 0)
	s.draw(top)
	s.picture.Describe = "Places as boxes and the bundles that join them, from the supply at the left outwards. Lengths are written, not drawn."
	s.finish("Not to scale: lengths are written beside the bundles, thicker lines are thicker bundles.")
}

// column is what stands at one depth of the tree: the widest card, and the room
// that the bundles after it need.
type column struct{ wide, room float64 }

func (s *sketch) card(n *node) *card {
	c := &card{node: n, lines: n.about(s.harness.SlackM)}
	below := 0.0
	for _, next := range n.next {
		head, lines := label(next.in)
		c.labels = append(c.labels, append([]string{head}, lines...))
		hung := s.card(next)
		hung.high = max(hung.high, float64(len(lines)+1)*lineMM+gapMM)
		c.next = append(c.next, hung)
		below += hung.high
	}
	c.high = max(below, c.tall()+gapMM)
	return c
}

// tall is a card's own height: its words, and a port for each bundle.
func (c *card) tall() float64 {
	words := float64(1+len(c.lines))*lineMM + 2*padMM
	return max(words, float64(len(c.next)+1)*trackMM)
}

func (c *card) wide() float64 {
	wide := draw.WidthMM(c.node.place.Name, typeMM, true)
	for _, l := range c.lines {
		wide = max(wide, draw.WidthMM(l, typeMM, false))
	}
	return min(wide+2*padMM, cardMM)
}

// widen finds how wide each column has to be.
func (c *card) widen(columns *[]column, depth int) {
	if depth == len(*columns) {
		*columns = append(*columns, column{})
	}
	at := &(*columns)[depth]
	at.wide = max(at.wide, c.wide())
	tracks := trackMM * float64(len(c.next)+1)
	for _, lines := range c.labels {
		for i, l := range lines {
			at.room = max(at.room, tracks+leadMM+draw.WidthMM(l, typeMM, i == 0)+leadMM)
		}
	}
	for _, next := range c.next {
		next.widen(columns, depth+1)
	}
}

// place sets a card and what hangs on it into the band below top.
func (c *card) place(columns []column, left, top float64) {
	middle := top + c.high/2
	c.box = draw.Box{Left: left, Top: middle - c.tall()/2, Right: left + columns[0].wide, Bottom: middle + c.tall()/2}
	sum := 0.0
	for _, next := range c.next {
		sum += next.high
	}
	y := middle - sum/2
	for _, next := range c.next {
		next.place(columns[1:], c.box.Right+columns[0].room, y)
		y += next.high
	}
}

func (c *card) middle() float64 { return (c.box.Top + c.box.Bottom) / 2 }

func (s *sketch) draw(c *card) {
	for i, next := range c.next {
		s.bundle(c, i, next)
		s.draw(next)
	}
	ink := draw.Ink{WidthMM: 0.3, Colour: draw.Black, Fill: draw.Shade}
	items := []draw.Item{c.box.Frame(ink)}
	y := c.box.Top + padMM + lineMM*0.75
	items = append(items, s.words(c.node.place.Name, c.box.Left+padMM, y, c.box.Right-c.box.Left-2*padMM, true))
	for _, l := range c.lines {
		y += lineMM
		items = append(items, s.words(l, c.box.Left+padMM, y, c.box.Right-c.box.Left-2*padMM, false))
	}
	s.picture.Add(draw.Group{Sort: draw.Place, Name: c.node.place.Name, Items: items})
}

func (s *sketch) words(words string, x, y, mostMM float64, heavy bool) draw.Text {
	return draw.Text{At: draw.Point{X: x, Y: y}, Words: draw.Cut(words, typeMM, heavy, mostMM), SizeMM: typeMM, Bold: heavy}
}

// bundle draws the bundle to a card's i-th follower. Those that go up turn the
// sooner the higher they end, those that go down the sooner the lower, so that
// none crosses another.
func (s *sketch) bundle(c *card, i int, next *card) {
	port := c.middle() + (float64(i)-float64(len(c.next)-1)/2)*trackMM
	end := next.middle()
	turn := i
	if end > port {
		turn = len(c.next) - 1 - i
	}
	x := c.box.Right + trackMM*float64(turn+1)
	points := []draw.Point{{X: c.box.Right, Y: port}, {X: x, Y: port}, {X: x, Y: end}, {X: next.box.Left, Y: end}}
	b := next.node.in
	items := []draw.Item{draw.Line{Points: points, Ink: draw.Ink{WidthMM: thick(b.DiameterMM), Colour: draw.Black}}}
	from := c.box.Right + trackMM*float64(len(c.next)+1) + leadMM
	for k, l := range c.labels[i] {
		y := end - 1.2
		if k > 0 {
			y = end + 0.4 + float64(k)*lineMM
		}
		items = append(items, draw.Text{At: draw.Point{X: from, Y: y}, Words: l, SizeMM: typeMM, Bold: k == 0})
	}
	s.picture.Add(draw.Group{Sort: draw.Bundle, Name: b.Name, Tip: c.labels[i][0], Items: items})
}

// thick is how broad a bundle is drawn.
func thick(diameterMM float64) float64 { return min(0.4+diameterMM/16, 1.8) }
