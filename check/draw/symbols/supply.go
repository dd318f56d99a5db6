package symbols

import (
	"hame/check/draw"
	"hame/lang/kinds"
)

// poles plans a source with its positive over its negative, both at the right.
func poles(body func(p *pen, x, y float64)) maker {
	return func(p *Plan, terminals []kinds.Terminal) {
		p.Rows = []Row{right(terminals[0].Name, nameRoomMM+2, 8), right(terminals[1].Name, 6, 2+p.words.below())}
		p.WidthMM = max(18, p.words.longest()+2)
		p.shape = func(q *pen) {
			x, y := q.middle()-2, (q.y[0]+q.y[1])/2
			q.solid(q.wide, q.y[0], x, q.y[0], x, y-sourceMM)
			q.solid(q.wide, q.y[1], x, q.y[1], x, y+sourceMM)
			body(q, x, y)
			q.words(q.wide-3, q.y[0]+2.2, DetailMM, draw.Start, true, "+")
			q.words(q.wide-3, q.y[1]-0.8, DetailMM, draw.Start, true, "−")
			q.caption(2, 0.4)
		}
	}
}

// sourceMM is half the height of a source's body.
const sourceMM = 3.4

// battery is cells: long thin plates for the positive, short thick for the
// negative.
func battery(p *pen, x, y float64) {
	for _, at := range []float64{-sourceMM, 0.9} {
		p.line(x-3, y+at, x+3, y+at)
		heavy := p.through()
		heavy.WidthMM = 3 * p.ink.WidthMM
		p.shape(heavy, false, []float64{x - 1.5, y + at + 1.8, x + 1.5, y + at + 1.8})
	}
	i := p.through()
	i.DashMM = 0.6
	p.shape(i, false, []float64{x, y - sourceMM + 1.8, x, y + 0.9})
	p.solid(x, y+2.7, x, y+sourceMM)
}

// generator is a circle with its letter.
func generator(p *pen, x, y float64) {
	p.circle(x, y, sourceMM)
	p.sign(x, y-0.5, 3, "G")
	p.solid(x-1, y+1.9, x+1, y+1.9)
}

// converter is a square that a diagonal parts, with the sign of direct current
// on either side.
func converter(p *Plan, _ []kinds.Terminal) {
	p.Rows = []Row{through("in", "out", 4+nameRoomMM, 4), right("neg", 4, 2+p.words.below())}
	p.WidthMM = max(20, p.words.longest()+2)
	p.shape = func(q *pen) {
		x, y := q.middle(), q.y[0]
		q.rect(x, y, 4, 4)
		q.solid(x-4, y+4, x+4, y-4)
		for _, at := range []float64{-1, 1} {
			q.solid(x+at*2-1.2, y+at*2-0.4, x+at*2+1.2, y+at*2-0.4)
			q.solid(x+at*2-1.2, y+at*2+0.4, x+at*2+1.2, y+at*2+0.4)
		}
		q.solid(0, y, x-4, y)
		q.solid(x+4, y, q.wide, y)
		q.solid(x, y+4, x, q.y[1], q.wide, q.y[1])
		for i := range q.y {
			q.portNames(i, true)
		}
		q.caption(4.6, 0.4)
	}
}

// tap is a terminal on a circuit that runs on: an arrow out of it.
func tap(p *Plan, _ []kinds.Terminal) {
	p.Rows = []Row{right("out", 3+nameRoomMM, 3+p.words.below())}
	p.WidthMM = max(16, p.words.longest()+2)
	p.shape = func(q *pen) {
		x, y := q.middle()-2, q.y[0]
		q.line(x, y-2.6, x, y+2.6)
		q.dot(x, y, 0.8)
		q.solid(x, y, q.wide, y)
		q.solid(x+2.4, y-1, x+4, y, x+2.4, y+1)
		q.caption(3.4, 2)
	}
}
