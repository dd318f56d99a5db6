package states

import "slices"

// outline is what may conduct and what may be fed in a position, whatever stands
// where the position does not say.
type outline struct {
	key, engine string
	can         []bool // by element
	fed         []bool // by node
	live        []hand // that a source can reach, once they are asked for
}

// outlines are those of the frames. Temperature and charge have no part in them,
// so all frames of one place of the key and one state of the engine share one.
type outlines []outline

// of is the outline of a frame; nil where it was not drawn yet.
func (o outlines) of(p *Position) *outline {
	for i := range o {
		if len(p.Throws) == 0 && o[i].key == p.Key && o[i].engine == p.Engine {
			return &o[i]
		}
	}
	return nil
}

// frame is the outline of a frame.
func (v *surveyor) frame(p *Position) *outline {
	if known := v.outlines.of(p); known != nil {
		return known
	}
	b := v.outline(p)
	v.outlines = append(v.outlines, outline{key: p.Key, engine: p.Engine, can: slices.Clone(b.can), fed: slices.Clone(b.fed)})
	return v.outlines.of(p)
}

// outline is the outline of a position until the next is asked for.
func (v *surveyor) outline(p *Position) *bounder {
	if v.drawn == nil {
		v.drawn = v.solver.outline(p, nil)
	} else {
		v.drawn.redraw(p)
	}
	return v.drawn
}

// outline finds what may conduct and what may be fed in a position. The
// switches that it names stand where it says, all others anywhere; so do the
// relays.
func (s *Solver) outline(p *Position, in map[int]bool) *bounder {
	b := &bounder{s: s, p: p, in: in, supply: make([]supply, len(s.Network.Elements))}
	b.sources()
	b.can, b.seen = make([]bool, len(s.Network.Elements)), make([]bool, s.Network.Nodes)
	for i := range s.Network.Elements {
		b.can[i] = b.may(&s.Network.Elements[i])
	}
	b.reach()
	return b
}

// redraw is the outline of another position, in the same room.
func (b *bounder) redraw(p *Position) {
	b.p = p
	b.sources()
	for _, i := range b.s.contacts {
		b.can[i] = b.may(&b.s.Network.Elements[i])
	}
	b.reach()
}

// copy is redraw where the outline is known.
func (b *bounder) copy(p *Position, o *outline) {
	b.p = p
	b.sources()
	copy(b.can, o.can)
	b.fed = b.seen
	copy(b.fed, o.fed)
	b.starve()
}
