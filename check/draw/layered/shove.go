package layered

// slot is a row in its layer, between its neighbours.
type slot struct {
	row         *row
	item        *item
	above, down *slot
	ends        []*pin // that land on it
	others      []*pin // and the other pins of their segments
}

// The work that is done to straighten: rounds over all wires, slots moved at once,
// and slots moved in all.
const (
	shoveRounds = 6
	mostShoved  = 250
	mostMoves   = 400_000
)

// shover straightens wires by moving whatever runs straight together as one, and
// pushing on what is in its way.
type shover struct {
	slots       map[*row]*slot
	top, bottom float64
	moves       int
}

// straighten tries, for every wire that turns, to move what hangs on one of its
// ends until it runs straight, and keeps what makes the whole straighter.
func (s *sketch) straighten() {
	v := &shover{slots: map[*row]*slot{}}
	for _, layer := range s.layers {
		v.link(layer)
	}
	for _, c := range s.channels {
		for _, g := range c {
			for i := range g.pins {
				at := v.at(&g.pins[i])
				at.ends, at.others = append(at.ends, &g.pins[i]), append(at.others, &g.pins[1-i])
			}
		}
	}
	for moved, r := true, 0; moved && r < shoveRounds && v.moves <= mostMoves; r++ {
		moved = false
		for _, c := range s.channels {
			for _, g := range c {
				moved = v.try(g) || moved
			}
		}
		s.tighten(v)
	}
}

func (v *shover) at(p *pin) *slot { return v.slots[&p.item.rows[p.row]] }

func (v *shover) link(layer []*item) {
	var last *slot
	for _, it := range layer {
		for k := range it.rows {
			at := &slot{row: &it.rows[k], item: it, above: last}
			v.slots[at.row] = at
			if last != nil {
				last.down = at
			}
			last = at
			v.top, v.bottom = min(v.top, at.row.y-at.row.up), max(v.bottom, at.row.y+at.row.down)
		}
	}
}

// try moves one end of a segment to the height of the other, whichever is better.
func (v *shover) try(g *segment) bool {
	d := g.pins[1].y() - g.pins[0].y()
	if d == 0 || v.moves > mostMoves {
		return false
	}
	one, gain := v.shove(v.at(&g.pins[0]), d)
	two, other := v.shove(v.at(&g.pins[1]), -d)
	if other > gain {
		one, gain = two, other
	}
	if gain <= 0 {
		return false
	}
	v.apply(one)
	return true
}

func (v *shover) apply(moves []move) {
	for _, m := range moves {
		m.at.row.y += m.by
		v.top, v.bottom = min(v.top, m.at.row.y-m.at.row.up), max(v.bottom, m.at.row.y+m.at.row.down)
	}
}

// move is a slot with how far it moves.
type move struct {
	at *slot
	by float64
}

// push is a shove that is worked out: how far each slot moves, in one direction.
type push struct {
	shover *shover
	shift  map[*slot]float64
	list   []*slot // that move
	todo   []*slot // whose neighbours were not looked at since they moved
}

// move moves a slot and what is straight with it, unless it moves that far already.
func (p *push) move(at *slot, by float64) {
	for _, o := range p.shover.together(at) {
		was, known := p.shift[o]
		if known && size(was) >= size(by) {
			continue
		}
		if !known {
			p.list = append(p.list, o)
		}
		p.shift[o] = by
		p.todo = append(p.todo, o)
	}
}

// yield lets a slot's neighbour in the direction of the shove give way.
func (p *push) yield(at *slot, by float64) {
	next, over := at.down, 1.0
	if by < 0 {
		next, over = at.above, -1
	}
	if next == nil {
		return
	}
	gap := over*(next.row.y+p.shift[next]-at.row.y-p.shift[at]) - apart(at, next, over)
	if gap < 0 {
		p.move(next, p.shift[next]-over*gap)
	}
}

// shove works out what moves with a slot, and what that gains; it moves nothing.
func (v *shover) shove(from *slot, by float64) ([]move, float64) {
	p := &push{shover: v, shift: map[*slot]float64{}}
	p.move(from, by)
	for len(p.todo) > 0 && len(p.list) <= mostShoved {
		at := p.todo[len(p.todo)-1]
		p.todo = p.todo[:len(p.todo)-1]
		p.yield(at, by)
	}
	v.moves += len(p.list)
	if len(p.list) > mostShoved {
		return nil, 0
	}
	moves := make([]move, len(p.list))
	for i, at := range p.list {
		moves[i] = move{at, p.shift[at]}
	}
	return moves, v.gain(moves, p.shift)
}

func size(d float64) float64 { return max(d, -d) }

// apart is how far two neighbours must be apart; over is 1 where the second is the
// lower.
func apart(a, b *slot, over float64) float64 {
	if over < 0 {
		a, b = b, a
	}
	d := a.row.down + b.row.up
	if a.item != b.item {
		d += gapMM
	}
	return d
}

// together are the slots that straight wires join to one.
func (v *shover) together(from *slot) []*slot {
	seen := map[*slot]bool{from: true}
	list := []*slot{from}
	for i := 0; i < len(list) && len(list) <= mostShoved; i++ {
		for k, p := range list[i].ends {
			o := list[i].others[k]
			at := v.at(o)
			if !seen[at] && p.far != o.far && p.y() == o.y() {
				seen[at] = true
				list = append(list, at)
			}
		}
	}
	return list
}

// gain is how much less the strain is after moves, the page's growth set against it.
func (v *shover) gain(moves []move, shift map[*slot]float64) float64 {
	gain := 0.0
	top, bottom := v.top, v.bottom
	for _, m := range moves {
		for k, p := range m.at.ends {
			o := m.at.others[k]
			by, both := shift[v.at(o)]
			d := p.y() - o.y()
			change := strained(d) - strained(d+m.by-by)
			if both { // it is met from its other end too
				change /= 2
			}
			gain += change
		}
		y := m.at.row.y + m.by
		top, bottom = min(top, y-m.at.row.up), max(bottom, y+m.at.row.down)
	}
	return gain - (v.top - top) - (bottom - v.bottom)
}

// strained is what a difference in height costs: the two turns, and the way.
func strained(d float64) float64 {
	const perTurn = 12
	if d == 0 {
		return 0
	}
	return perTurn + size(d)
}
