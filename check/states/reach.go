package states

import "hame/check/network"

// reach finds what may conduct: a contact of the key or of a tap as the frame
// has it, a switch's where it can stand, a relay's only if its coil can be fed.
func (b *bounder) reach() {
	for b.fed = b.flood(); b.pull(); b.fed = b.flood() {
	}
	b.starve()
}

// starve takes converters for off whose input cannot be fed.
func (b *bounder) starve() {
	for _, i := range b.s.sources {
		if in := b.input(i); in != nil && !b.fed[in.A] && !b.fed[in.B] {
			b.supply[i].off = true
		}
	}
}

// may: a relay's closing contact is seen to by pull.
func (b *bounder) may(e *network.Element) bool {
	switch e.Kind {
	case network.Load, network.Source:
		return false
	case network.Contact:
		switch e.Gate.By {
		case network.Hand:
			throw, set := b.p.Throws[e.Device]
			return !set || throw == e.Gate.Throw
		case network.Relay:
			in, set := b.in[e.Gate.Coil]
			return e.Gate.Rest && !(set && in)
		}
		return closed(e, b.p)
	}
	return true
}

// pull closes the contacts of relays whose coils are fed; false where that
// changes nothing.
func (b *bounder) pull() bool {
	changed := false
	for _, i := range b.s.relays {
		gate := b.s.Network.Elements[i].Gate
		coil := &b.s.Network.Elements[gate.Coil]
		in, set := b.in[gate.Coil]
		if !gate.Rest && !b.can[i] && (in || !set) && (b.fed[coil.A] || b.fed[coil.B]) {
			b.can[i], changed = true, true
		}
	}
	return changed
}

// input is the input of a converter's output, else nil.
func (b *bounder) input(i int) *network.Element {
	if b.s.digests[i].kind != network.Source {
		return nil
	}
	e := &b.s.Network.Elements[i]
	if e.Source.Sort != "converter" || e.Source.Input < 0 {
		return nil
	}
	return &b.s.Network.Elements[e.Source.Input]
}

// flood marks what sources can feed off the return side, through loads that
// bridge two feeds too.
func (b *bounder) flood() []bool {
	n := b.s.Network
	seen, todo := b.seen, b.todo[:0]
	clear(seen)
	visit := func(v int) {
		if !seen[v] && !n.Return(v) {
			seen[v] = true
			todo = append(todo, v)
		}
	}
	for _, i := range b.s.sources {
		if e := &n.Elements[i]; !b.supply[i].off && b.input(i) == nil {
			visit(e.A)
			visit(e.B)
		}
	}
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range n.At[v] {
			e := &b.s.digests[i]
			if b.can[i] && (e.kind != network.Diode || int(e.a) == v) || e.bridges() && draws(n.Elements[i].Load, b.p) {
				visit(int(e.a+e.b) - v)
			}
			if e.kind == network.Load && b.s.outputs[i] > 0 {
				out := &n.Elements[b.s.outputs[i]]
				visit(out.A)
				visit(out.B)
			}
		}
	}
	b.todo = todo
	return seen
}
