package symbols

import (
	"hame/check/draw"
	"hame/lang/kinds"
)

// fuse is a rectangle with the conductor through it.
func fuse(p *pen, x, y float64) float64 {
	p.rect(x, y, 3.5, 1.3)
	p.solid(x-3.5, y, x+3.5, y)
	return 3.5
}

// link is a fuse drawn as a stretch of thin wire: a wave in a rectangle.
func link(p *pen, x, y float64) float64 {
	p.rect(x, y, 3.5, 1.3)
	p.arc(x-1.5, y, 1.5, 180, 360)
	p.arc(x+1.5, y, 1.5, 0, 180)
	p.solid(x-3.5, y, x-3, y)
	p.solid(x+3, y, x+3.5, y)
	return 3.5
}

// breaker is a contact with the cross of a circuit-breaker.
func breaker(p *pen, x, y float64) float64 {
	blade(p, x-3, x+3, y)
	p.solid(x+2.1, y-0.9, x+3.9, y+0.9)
	p.solid(x+2.1, y+0.9, x+3.9, y-0.9)
	return 3
}

// diode is a triangle that points to a bar.
func diode(p *pen, x, y float64) float64 {
	p.filled(x-1.8, y-1.8, x-1.8, y+1.8, x+1.8, y)
	p.solid(x+1.8, y-1.8, x+1.8, y+1.8)
	p.solid(x-1.8, y, x+1.8, y)
	return 1.8
}

// panel is one box with a row for each way: its number, its device, what it is for.
func panel(p *Plan, terminals []kinds.Terminal) {
	wide, spare := 0.0, map[string]bool{}
	for _, a := range p.given.Given("way") {
		spare[a.RepeatKey()] = a.Word("device") == "spare"
	}
	for _, t := range terminals {
		r := right(t.Name, 2, 4)
		if t.Name == "feed" {
			r = left(t.Name, 2, 4)
		}
		r.Words = p.words.Rows[t.Name]
		wide = max(wide, draw.WidthMM(r.Words, DetailMM, false))
		p.Rows = append(p.Rows, r)
	}
	p.WidthMM = numberMM + wayFuseMM + wide + 3
	p.framed(false)
	head := p.shape
	p.shape = func(q *pen) {
		head(q)
		for i, r := range q.rows {
			if r.HasLeft {
				q.words(1.6, q.y[i]+0.35*DetailMM, DetailMM, draw.Start, false, r.Left)
				q.dot(0, q.y[i], ringMM)
				continue
			}
			q.way(q.y[i], r, spare[r.Right])
		}
	}
}

// The columns of a panel: the way's number, its words, its fuse.
const numberMM, wayFuseMM = 5, 7

// way draws one way; a spare one has no device.
func (p *pen) way(y float64, r Row, spare bool) {
	p.words(numberMM-1, y+0.35*DetailMM, DetailMM, draw.End, true, r.Right)
	p.words(numberMM, y+0.35*DetailMM, DetailMM, draw.Start, false, r.Words)
	if spare {
		p.ring(p.wide-2*ringMM, y)
		return
	}
	x := p.wide - wayFuseMM/2
	p.rect(x, y, 2, 0.9)
	p.solid(x-3, y, p.wide, y)
}
