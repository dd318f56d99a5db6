package symbols

import (
	"strings"

	"hame/check/draw"
	"hame/lang/kinds"
)

// Spread gives a symbol whose one terminal takes wires at both sides as many rows
// as they need: a bar with a row for each wire. Other symbols stay as they are.
func (p *Plan) Spread(rows int) {
	if !p.Bar() {
		return
	}
	first := p.Rows[0]
	for len(p.Rows) < rows {
		last := &p.Rows[len(p.Rows)-1]
		next := first
		next.UpMM, next.DownMM = 2, last.DownMM
		last.DownMM = 2
		p.Rows = append(p.Rows, next)
	}
}

// Bar reports whether the symbol is one terminal that takes wires at both sides.
func (p *Plan) Bar() bool {
	return p.Rows[0].HasLeft && p.Rows[0].HasRight && p.Rows[0].Left == p.Rows[0].Right
}

// bar plans a symbol of one terminal.
func bar(footMM float64, body func(p *pen, x float64)) maker {
	return func(p *Plan, terminals []kinds.Terminal) {
		p.Rows = []Row{through(terminals[0].Name, terminals[0].Name, 2+nameRoomMM, footMM+p.words.below())}
		p.WidthMM = max(10, p.words.longest()+2)
		p.shape = func(q *pen) {
			body(q, q.middle())
			q.caption(2.4, footMM-0.4)
		}
	}
}

// Landed says on which rows of a bar wires land at either side, for its leads.
// A row that says nothing has none.
func (p *Plan) Landed(lefts, rights []int) {
	for i := range p.Rows {
		p.Rows[i].HasLeft, p.Rows[i].HasRight = false, false
	}
	for _, i := range lefts {
		p.Rows[i].HasLeft = true
	}
	for _, i := range rights {
		p.Rows[i].HasRight = true
	}
}

// leads draws a bar's leads, each with a mark where it meets the bar.
func (p *pen) leads(x float64, mark func(x, y float64)) {
	for i, r := range p.rows {
		if r.HasLeft {
			p.solid(0, p.y[i], x, p.y[i])
		}
		if r.HasRight {
			p.solid(x, p.y[i], p.wide, p.y[i])
		}
		mark(x, p.y[i])
	}
}

func (p *pen) spine(x, times float64) {
	i := p.through()
	i.WidthMM *= times
	p.shape(i, false, []float64{x, p.y[0], x, p.y[len(p.y)-1]})
}

// splice is a dot, or a line of them.
func splice(p *pen, x float64) {
	p.spine(x, 1)
	p.leads(x, func(x, y float64) { p.dot(x, y, 0.8) })
}

// stud is a terminal circle with a dot: a bolt that rings are stacked on.
func stud(p *pen, x float64) {
	p.spine(x, 2)
	p.leads(x, func(x, y float64) { p.ring(x, y); p.dot(x, y, 0.3) })
}

// busbar is a thick bar with its screws.
func busbar(p *pen, x float64) {
	top, bottom := p.y[0]-1.6, p.y[len(p.y)-1]+1.6
	p.leads(x, func(float64, float64) {})
	p.pane(draw.Box{Left: x - 1.1, Top: top, Right: x + 1.1, Bottom: bottom})
	for _, y := range p.y {
		p.ring(x, y)
	}
}

// earth is a bolt on the chassis: the sign of the frame hangs below it.
func earth(p *pen, x float64) {
	stud(p, x)
	foot := p.y[len(p.y)-1]
	p.solid(x, foot, x, foot+1.4)
	p.frame(x, foot+1.4)
}

// frame is the sign of a frame or chassis: a bar with slanting strokes.
func (p *pen) frame(x, y float64) {
	p.solid(x-2, y, x+2, y)
	for _, at := range []float64{-2, 0, 2} {
		p.solid(x+at, y, x+at-0.9, y+1.3)
	}
}

// chassis is the frame itself: a heavy bar with the sign.
func chassis(p *pen, x float64) {
	foot := p.y[len(p.y)-1] + 1.4
	p.leads(x, func(float64, float64) {})
	p.pane(draw.Box{Left: x - 0.7, Top: p.y[0] - 1.4, Right: x + 0.7, Bottom: foot})
	for _, y := range p.y {
		p.dot(x, y, 0.5)
	}
	p.frame(x, foot)
}

// connector is mating pairs, a row each: the female contact as a cup, the male
// one as a pin. One whose other half is not ours has only its own.
func connector(p *Plan, terminals []kinds.Terminal) {
	at := map[string]int{}
	for _, t := range terminals {
		half, number, _ := strings.Cut(t.Name, ".")
		i, known := at[number]
		if !known {
			i = len(p.Rows)
			at[number] = i
			p.Rows = append(p.Rows, Row{UpMM: 2, DownMM: 4, Words: p.words.Rows[number]})
		}
		if half == "female" {
			p.Rows[i].Left, p.Rows[i].HasLeft = t.Name, true
		} else {
			p.Rows[i].Right, p.Rows[i].HasRight = t.Name, true
		}
		p.WidthMM = max(p.WidthMM, 12+draw.WidthMM(number+" "+p.Rows[i].Words, DetailMM, false))
	}
	p.framed(false)
	p.Rows[0].UpMM += 2
	head := p.shape
	p.shape = func(q *pen) {
		head(q)
		for i, r := range q.rows {
			q.pair(q.y[i], r)
		}
	}
}

// pair draws one row: number and function over the contacts.
func (p *pen) pair(y float64, r Row) {
	name := r.Left
	if !r.HasLeft {
		name = r.Right
	}
	_, number, _ := strings.Cut(name, ".")
	x := 4.0
	if r.HasLeft {
		p.solid(0, y, x-1, y)
		p.solid(x+0.4, y-1.2, x-1, y-0.6, x-1, y+0.6, x+0.4, y+1.2)
	}
	if r.HasRight {
		p.solid(x-0.2, y, p.wide, y)
		p.filled(x-0.2, y-0.5, x+1.8, y-0.5, x+1.8, y+0.5, x-0.2, y+0.5)
	}
	p.words(x+3, y-0.7, DetailMM, draw.Start, false, join(number, r.Words))
}

func join(a, b string) string {
	if b == "" {
		return a
	}
	return a + " " + b
}
