package network

import "hame/lang/kinds"

// rails gives what hangs on converters alone the rail's system, which is what
// the converter gives: a draw or a pull-in that names no volts is at those.
func (b *builder) rails() {
	var converters, others []int
	for i := range b.n.Elements {
		switch e := &b.n.Elements[i]; {
		case e.Kind != Source:
		case e.Source.Sort == "converter":
			converters = append(converters, i)
		default:
			others = append(others, i)
		}
	}
	if len(converters) == 0 {
		return
	}
	fed := make([]bool, b.n.Nodes)
	for _, s := range others {
		b.n.walk(b.n.Hot(s), fed, conducts, nil)
	}
	by := b.first(converters)
	for i := range b.n.Elements {
		e := &b.n.Elements[i]
		if e.Kind != Load || e.Load.Hidden() {
			continue
		}
		if pole := b.live(e); !fed[pole] && by[pole] >= 0 {
			b.onRail(e, b.n.Elements[by[pole]].Source.NominalV)
		}
	}
}

// first is, by node, the first of some sources whose live pole leads there; -1
// where none does. What an earlier one leads to leads no further than it does.
func (b *builder) first(sources []int) []int {
	by, seen := make([]int, b.n.Nodes), make([]bool, b.n.Nodes)
	for node := range by {
		by[node] = -1
	}
	for _, s := range sources {
		b.n.walkTelling(b.n.Hot(s), seen, conducts, nil, func(node int) { by[node] = s })
	}
	return by
}

// live is the pole of a load that is fed.
func (b *builder) live(load *Element) int {
	if b.n.Return(load.A) {
		return load.B
	}
	return load.A
}

// onRail states a load's law again for the rail's volts.
func (b *builder) onRail(e *Element, railV float64) {
	was := b.systemV
	b.systemV = railV
	defer func() { b.systemV = was }()
	switch {
	case e.Load.Coil != nil && e.Device.Is(kinds.Switch, "relay"):
		e.Load = b.coilSpec(e.Device)
	case e.Device.Is(kinds.Load) && e.Device.Has("input"):
		for _, args := range e.Device.Given("input") {
			if a, ok := args.Get("draw"); ok && e.Name == e.Device.Name+"."+args.RepeatKey() {
				e.Load = b.spec(e.Device, a.Lo, 0).standing(e.Load.StandbyA)
			}
		}
	case e.Device.Is(kinds.Load):
		e.Load = b.drawn(e.Device).standing(e.Load.StandbyA)
	}
}

// standing sets what a load draws with the key off.
func (s *LoadSpec) standing(amps float64) *LoadSpec {
	s.StandbyA = amps
	return s
}
