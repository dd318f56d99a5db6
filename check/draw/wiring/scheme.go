package wiring

import (
	"hame/check"
	"hame/check/draw/symbols"
	"hame/check/facts"
	"hame/check/figures"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// box is a device as the diagram knows it: of a long panel, some of its ways.
type box struct {
	device *harness.Device
	part   int // of a panel in parts, from 1; 0 where it is whole
	parts  int
	ways   []*harness.Terminal // of a part
	at     int                 // its place in the order of the text
	// collects: it is a point of the return side at which wires come together.
	collects bool
	flipped  bool
	sheet    int
	before   int // the sheet that it stood on before two were joined
}

// scheme is the whole diagram before it is laid out.
type scheme struct {
	run     *check.Run
	harness *harness.Harness
	facts   *facts.Facts
	boxes   []*box
	of      map[*harness.Terminal]*box
	figures map[*harness.Device]*figures.Device
	ways    map[string]int // the element of each panel's way, by its name: aux.2
	dist    []int          // by node of the network: steps from a source, far where none leads there
	mode    *moment
	strip   bool // the return side is drawn by itself
	sheets  int
}

// mostWays is how many ways of a panel stand in one box.
const mostWays = 48

func newScheme(run *check.Run, mode string) *scheme {
	s := &scheme{run: run, harness: run.Harness, facts: run.Facts, of: map[*harness.Terminal]*box{}, figures: map[*harness.Device]*figures.Device{}, ways: map[string]int{}}
	for _, f := range s.facts.Figures.Devices {
		s.figures[f.Device] = f
	}
	for i, e := range s.facts.Network.Elements {
		if e.Fuse != nil && e.Fuse.Way != nil {
			s.ways[e.Name] = i
		}
	}
	for _, d := range s.harness.Devices {
		s.add(d)
	}
	s.measure()
	for _, b := range s.boxes {
		b.collects = s.collects(b.device)
		b.flipped = s.turnsRound(b)
	}
	s.mode = s.momentOf(mode)
	return s
}

// add makes the boxes of a device: one, or one for each part of a long panel.
func (s *scheme) add(d *harness.Device) {
	parts := 1
	if d.Is(kinds.Protection, "panel") {
		parts = max(1, (len(d.Terminals)-1+mostWays-1)/mostWays)
	}
	for p := range parts {
		b := &box{device: d, at: len(s.boxes), parts: parts}
		s.boxes = append(s.boxes, b)
		if parts > 1 {
			b.part = p + 1
			b.ways = d.Terminals[1+p*mostWays : min(len(d.Terminals), 1+(p+1)*mostWays)]
			for _, t := range b.ways {
				s.of[t] = b
			}
			if p > 0 {
				continue
			}
			s.of[d.Terminals[0]] = b
			continue
		}
		for _, t := range d.Terminals {
			s.of[t] = b
		}
	}
}

// single reports whether a device is one terminal that takes wires at both sides.
func single(d *harness.Device) bool { return len(d.Terminals) == 1 && d.Terminals[0].Name == "" }

// collects reports whether a device gathers returns: ground points, and splices,
// studs and buses of the return side.
func (s *scheme) collects(d *harness.Device) bool {
	return d.Is(kinds.Ground) || single(d) && d.Is(kinds.Join) && s.facts.Network.Return(d.Terminals[0].Index)
}

// turnsRound reports whether a device's feed comes from what is its right.
func (s *scheme) turnsRound(b *box) bool {
	d := b.device
	if !symbols.CanFlip(d.Kind) {
		return false
	}
	votes := 0
	p := symbols.New(d.Kind, d, symbols.Words{})
	rows := p.Rows
	if d.Is(kinds.Switch, "relay") {
		rows = rows[:1] // its contact says it
	}
	for _, r := range rows {
		in, out := d.Terminal(r.Left), d.Terminal(r.Right)
		if in == nil || out == nil {
			continue
		}
		switch a, b := s.dist[in.Index], s.dist[out.Index]; {
		case a > b:
			votes++
		case a < b:
			votes--
		}
	}
	return votes > 0
}
