package symbols

import (
	"hame/check/draw"
	"hame/lang/kinds"
)

// bodyMM is half the width of a load's body, which stands at the left; the name
// and the details stand over and under the lead to its negative.
const bodyMM = 3.2

// load plans a load: a row for its positive and its negative, or one for each
// input with the negative at the first.
func load(body func(p *pen, x, y float64)) maker {
	return func(p *Plan, terminals []kinds.Terminal) {
		last := len(terminals) - 1
		if last == 1 {
			p.Rows = []Row{through(terminals[0].Name, terminals[1].Name, 4, max(4, 1+p.words.below()))}
			p.WidthMM = 2*bodyMM + 4 + max(10, p.words.longest()+frameMM(p.given))
			p.shape = func(q *pen) { q.load(body, len(p.given.Given("case")) > 0) }
			return
		}
		for i, t := range terminals[:last] {
			r := left(t.Name, 2, 4)
			if i == 0 {
				r = through(t.Name, terminals[last].Name, 2, 4)
			}
			p.WidthMM = max(p.WidthMM, 3*bodyMM+10+draw.WidthMM(t.Name, DetailMM, false))
			p.Rows = append(p.Rows, r)
		}
		p.framed(true)
		head := p.shape
		p.shape = func(q *pen) {
			head(q)
			n := len(q.y)
			body(q, q.wide-2*bodyMM-1, max(q.y[0]+bodyMM+2, (q.y[0]+q.y[n-1])/2))
		}
		p.Rows[len(p.Rows)-1].DownMM += 2
	}
}

// load draws a load on its line. One that returns through its case has the sign
// of the frame on its negative.
func (p *pen) load(body func(p *pen, x, y float64), cased bool) {
	y, x := p.y[0], 1+bodyMM
	p.solid(0, y, 1, y)
	p.solid(1+2*bodyMM, y, p.wide, y)
	if cased {
		p.solid(p.wide-2, y, p.wide-2, y+1.2)
		p.frame(p.wide-2, y+1.2)
	}
	body(p, x, y)
	at := 2*bodyMM + 2
	p.words(at, y-1, NameMM, draw.Start, true, p.plan.words.Name)
	for i, d := range p.plan.words.Details {
		p.words(at, y+lineMM*float64(i+1), DetailMM, draw.Start, false, d)
	}
}

// lamp is a circle with a cross.
func lamp(p *pen, x, y float64) {
	p.circle(x, y, bodyMM)
	const d = bodyMM * 0.7071
	p.solid(x-d, y-d, x+d, y+d)
	p.solid(x-d, y+d, x+d, y-d)
}

// led is a diode that gives light: two arrows leave its triangle.
func led(p *pen, x, y float64) {
	p.solid(x-bodyMM, y, x+bodyMM, y)
	p.filled(x-1.7, y-1.6, x-1.7, y+1.6, x+1.3, y)
	p.solid(x+1.3, y-1.6, x+1.3, y+1.6)
	for _, at := range []float64{-0.6, 1} {
		p.solid(x+at, y-1.7, x+at+1.3, y-3)
		p.solid(x+at+0.5, y-2.9, x+at+1.3, y-3, x+at+1.2, y-2.2)
	}
}

// heater is a rectangle with bars across.
func heater(p *pen, x, y float64) {
	p.rect(x, y, bodyMM, 1.4)
	for _, at := range []float64{-1.6, 0, 1.6} {
		p.solid(x+at, y-1.4, x+at, y+1.4)
	}
}

// motor is a circle with its letter.
func motor(p *pen, x, y float64) {
	p.circle(x, y, bodyMM)
	p.sign(x, y-0.4, 3, "M")
	p.solid(x-1, y+1.9, x+1, y+1.9)
}

// starter is a motor between the brushes of a great current.
func starter(p *pen, x, y float64) {
	motor(p, x, y)
	heavy := p.through()
	heavy.Fill = draw.Black
	for _, at := range []float64{-bodyMM, bodyMM} {
		p.shape(heavy, true, []float64{x + at - 0.4, y - 1, x + at + 0.4, y - 1, x + at + 0.4, y + 1, x + at - 0.4, y + 1})
	}
}

// outlet is a socket: half a circle that takes a pin.
func outlet(p *pen, x, y float64) {
	p.arc(x+0.6, y, 2.6, 90, 270)
	p.solid(x-bodyMM, y, x-2, y)
	p.solid(x+0.6, y-2.6, x+0.6, y+2.6)
	p.solid(x+0.6, y, x+bodyMM, y)
}

// module is a rectangle.
func module(p *pen, x, y float64) {
	p.rect(x, y, bodyMM, 2.6)
	p.sign(x, y, 2.4, "=")
}

// coil is the rectangle of a solenoid, with a stroke.
func coil(p *pen, x, y float64) {
	p.rect(x, y, bodyMM-0.6, 1.8)
	p.solid(x-bodyMM, y, x-bodyMM+0.6, y)
	p.solid(x+bodyMM-0.6, y, x+bodyMM, y)
	p.solid(x-1, y+1.8, x+1, y-1.8)
}

// frameMM is the room that the sign of a load's case takes.
func frameMM(g kinds.Given) float64 {
	if len(g.Given("case")) > 0 {
		return 5
	}
	return 0
}
