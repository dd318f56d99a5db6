package symbols

import (
	"hame/check/draw"
	"hame/lang/kinds"
)

// maker lays out and draws one kind.
type maker func(p *Plan, terminals []kinds.Terminal)

// makers has a maker for every kind, family by family.
var makers = map[kinds.Family]map[string]maker{
	kinds.Supply:     {"battery": poles(battery), "alternator": poles(generator), "converter": converter, "tap": tap},
	kinds.Protection: {"fuse": inline(fuse), "breaker": inline(breaker), "link": inline(link), "panel": panel},
	kinds.Switch: {
		"toggle": contacts(toggle), "push": contacts(push), "isolator": contacts(isolator),
		"key": key, "relay": relay, "diode": inline(diode),
	},
	kinds.Load: {
		"led": load(led), "bulb": load(lamp), "heater": load(heater), "motor": load(motor),
		"starter": load(starter), "outlet": load(outlet), "module": load(module), "solenoid": load(coil),
	},
	kinds.Join:   {"splice": bar(1, splice), "stud": bar(1, stud), "bus": bar(2, busbar), "connector": connector},
	kinds.Ground: {"chassis": bar(3.4, chassis), "stud": bar(3.4, earth), "bus": bar(2, busbar)},
}

// New plans the symbol of a device. Of a kind that is not known, as none of the
// language is, a box stands with its terminals.
func New(k *kinds.Kind, g kinds.Given, w Words) *Plan {
	p := &Plan{Kind: k, given: g, words: w}
	m, terminals := makers[k.Family][k.Name], k.Terminals(g)
	if m == nil || len(terminals) == 0 { // a connector that does not say its ways
		m = box
	}
	m(p, terminals)
	for i := range p.Rows {
		p.Rows[i].UpMM, p.Rows[i].DownMM = even(p.Rows[i].UpMM), even(p.Rows[i].DownMM)
	}
	p.WidthMM = even(p.WidthMM)
	return p
}

// CanFlip: a symbol of which the feed may come from either side.
func CanFlip(k *kinds.Kind) bool {
	switch k.Family {
	case kinds.Protection:
		return k.Name != "panel"
	case kinds.Switch:
		return true
	case kinds.Join:
		return k.Name == "connector"
	}
	return false
}

func left(name string, upMM, downMM float64) Row {
	return Row{Left: name, HasLeft: true, UpMM: upMM, DownMM: downMM}
}

func right(name string, upMM, downMM float64) Row {
	return Row{Right: name, HasRight: true, UpMM: upMM, DownMM: downMM}
}

func through(in, out string, upMM, downMM float64) Row {
	return Row{Left: in, HasLeft: true, Right: out, HasRight: true, UpMM: upMM, DownMM: downMM}
}

// Room for the name above and the details below a symbol of a half height.
const nameRoomMM = 3.6

func (w Words) below() float64 { return 0.8 + lineMM*float64(len(w.Details)) }

// inline plans a symbol with its two terminals left and right on one line.
func inline(body func(p *pen, x, y float64) float64) maker {
	return func(p *Plan, terminals []kinds.Terminal) {
		const half = 3
		p.Rows = []Row{through(terminals[0].Name, terminals[1].Name, half+nameRoomMM-1, half+p.words.below())}
		p.WidthMM = max(14, p.words.longest()+2)
		p.shape = func(q *pen) {
			x, y := q.middle(), q.y[0]
			reach := body(q, x, y)
			q.solid(0, y, x-reach, y)
			q.solid(x+reach, y, q.wide, y)
			q.caption(half, half-1)
		}
	}
}

// box is a plain rectangle with all terminals on its left.
func box(p *Plan, terminals []kinds.Terminal) {
	for _, t := range terminals {
		p.Rows = append(p.Rows, left(t.Name, 2, 2))
		p.WidthMM = max(p.WidthMM, 4+draw.WidthMM(t.Name, DetailMM, false))
	}
	if len(p.Rows) == 0 {
		p.Rows = []Row{{UpMM: 2, DownMM: 2}}
	}
	p.framed(true)
}

// framed draws a box round all rows with the name in its head, and the rows'
// words in it beside their terminals.
func (p *Plan) framed(names bool) {
	p.Rows[0].UpMM += nameRoomMM + lineMM*float64(len(p.words.Details))
	p.Rows[len(p.Rows)-1].DownMM++
	p.WidthMM = max(p.WidthMM, p.words.longest()+3)
	p.shape = func(q *pen) { q.framed(names) }
}

const marginMM = 1

func (p *pen) framed(names bool) {
	top, last := p.y[0]-p.rows[0].UpMM+0.5, len(p.y)-1
	p.pane(draw.Box{Left: 0, Top: top, Right: p.wide, Bottom: p.y[last] + p.rows[last].DownMM - 0.5})
	y := top + lineMM + 0.2
	p.words(p.middle(), y, NameMM, draw.Middle, true, p.plan.words.Name)
	for _, d := range p.plan.words.Details {
		y += lineMM
		p.words(p.middle(), y, DetailMM, draw.Middle, false, d)
	}
	if !names {
		return
	}
	for i, r := range p.rows {
		if r.HasLeft {
			p.words(marginMM, p.y[i]+0.35*DetailMM, DetailMM, draw.Start, false, r.Left)
		}
		if r.HasRight {
			p.words(p.wide-marginMM, p.y[i]+0.35*DetailMM, DetailMM, draw.End, false, r.Right)
		}
	}
}

// Has reports whether a kind has a symbol of its own.
func Has(k *kinds.Kind) bool { return makers[k.Family][k.Name] != nil }
