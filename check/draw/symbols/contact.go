package symbols

import (
	"strings"

	"hame/check/draw"
	"hame/lang/kinds"
)

// blade is an open make contact between two points of a line: the blade lifts
// from the first and ends above the second.
func blade(p *pen, from, to, y float64) {
	p.solid(from, y, to-0.4, y-2.2)
	p.dot(from, y, 0.45)
}

// actuator draws what works the blades, above the middle of the first.
type actuator func(p *pen, x, top, bottom float64)

// toggle: worked by hand, it stays.
func toggle(p *pen, x, top, bottom float64) {
	p.dashes(x, top, bottom)
	p.solid(x-1.2, top, x+1.2, top)
}

// push: a button, which springs back.
func push(p *pen, x, top, bottom float64) {
	p.dashes(x, top, bottom)
	p.solid(x-1.2, top+0.8, x-1.2, top, x+1.2, top, x+1.2, top+0.8)
}

// isolator: the bar of an isolator stands on the fixed contact instead.
func isolator(p *pen, x, top, bottom float64) {
	p.dashes(x, top, bottom)
	p.solid(x-1.2, top, x+1.2, top)
	p.solid(x+2.6, p.y[0]-1.1, x+2.6, p.y[0]+1.1)
}

// dashes is the mechanical link.
func (p *pen) dashes(x, top, bottom float64) {
	i := p.through()
	i.DashMM, i.WidthMM = 0.6, 0.25
	p.shape(i, false, []float64{x, top, x, bottom})
}

// contacts plans a switch worked by hand: a row for each throw of each pole.
func contacts(by actuator) maker {
	return func(p *Plan, terminals []kinds.Terminal) {
		for i, t := range terminals {
			if isIn(t.Name) {
				continue
			}
			r := right(t.Name, 4, 2)
			if in := terminals[i-1].Name; isIn(in) {
				r = through(in, t.Name, 4, 2)
			}
			p.Rows = append(p.Rows, r)
		}
		p.Rows[0].UpMM = 4 + nameRoomMM
		p.Rows[len(p.Rows)-1].DownMM += p.words.below()
		p.WidthMM = max(16, p.words.longest()+2)
		if len(p.Rows) > 1 {
			p.WidthMM = max(24, p.WidthMM) // room for the terminals' names
		}
		p.shape = func(q *pen) { q.poles(by) }
	}
}

func isIn(terminal string) bool { return terminal == "in" || strings.HasSuffix(terminal, ".in") }

func (p *pen) poles(by actuator) {
	x, base := p.middle(), 0
	for i, r := range p.rows {
		y := p.y[i]
		p.solid(x+3, y, p.wide, y)
		if r.HasLeft {
			base = i
			p.solid(0, y, x-3, y)
			blade(p, x-3, x+3, y)
		}
		p.portNames(i, len(p.rows) > 1)
		if !r.HasLeft { // another throw of the same pole
			p.solid(x+3, y, x+3, y-0.8)
			p.dot(x+3, y, 0.45)
			p.dashes(x-3, p.y[base], y)
		}
	}
	last := len(p.y) - 1
	for last > 0 && !p.rows[last].HasLeft {
		last--
	}
	by(p, x, p.y[0]-3.6, p.y[last]-1.2)
	p.caption(4.4, 0.4)
}

// portNames writes the terminals' names over their leads.
func (p *pen) portNames(i int, want bool) {
	if !want {
		return
	}
	r := p.rows[i]
	if r.HasLeft {
		p.words(0.8, p.y[i]-0.6, DetailMM, draw.Start, false, r.Left)
	}
	if r.HasRight {
		p.words(p.wide-0.8, p.y[i]-0.6, DetailMM, draw.End, false, r.Right)
	}
}

// key is a box with a turning arm and its positions.
func key(p *Plan, terminals []kinds.Terminal) {
	for i, t := range terminals[1:] {
		r := right(t.Name, 2, 4)
		if i == 0 {
			r = through(terminals[0].Name, t.Name, 2, 4)
		}
		p.Rows = append(p.Rows, r)
	}
	p.WidthMM = 22
	p.framed(true)
	head := p.shape
	p.shape = func(q *pen) {
		head(q)
		x := q.middle() - 1
		q.dot(x, q.y[0], 0.45)
		q.solid(x, q.y[0], x+3.4, q.y[0]-1)
		for i := range q.y {
			q.ring(x+4, q.y[i])
		}
		q.dashes(x+1.7, q.y[0]-0.4, q.y[len(q.y)-1])
	}
}

// relay has its contacts and its coil in one dashed frame, joined by the link.
func relay(p *Plan, terminals []kinds.Terminal) {
	p.Rows = []Row{through("30", "87", 6+nameRoomMM, 2)}
	for _, t := range terminals {
		if t.Name == "87a" {
			p.Rows = append(p.Rows, right("87a", 2, 2))
		}
	}
	p.Rows = append(p.Rows, through("86", "85", 4, 4+p.words.below()))
	p.WidthMM = max(26, p.words.longest()+3)
	p.shape = (*pen).relay
}

func (p *pen) relay() {
	x, last := p.middle(), len(p.y)-1
	y := p.y[0]
	p.solid(0, y, x-3, y)
	blade(p, x-3, x+3, y)
	for i := range last {
		p.solid(x+3, p.y[i], p.wide, p.y[i])
	}
	if last == 2 { // the rest contact
		p.solid(x+3, p.y[1], x+3, p.y[1]-0.8)
		p.dot(x+3, p.y[1], 0.45)
	}
	c := p.y[last]
	p.rect(x, c, 2.6, 1.5)
	p.solid(0, c, x-2.6, c)
	p.solid(x+2.6, c, p.wide, c)
	p.dashes(x, y-1.1, c-1.5)
	for i := range p.y {
		p.portNames(i, true)
	}
	frame := draw.Ink{WidthMM: 0.25, Colour: draw.Black, DashMM: 1.2}
	p.items = append(p.items, draw.Box{Top: y - 5, Right: p.wide, Bottom: c + 2.6}.Frame(frame))
	p.caption(5.8, 2.6)
}
