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
	for i := range b.n.Elements {
		e := &b.n.Elements[i]
		if e.Kind != Load || e.Load.Hidden() || len(converters) == 0 || b.feeds(others, e) {
			continue
		}
		for _, c := range converters {
			if b.feeds([]int{c}, e) {
				b.onRail(e, b.n.Elements[c].Source.NominalV)
				break
			}
		}
	}
}

// feeds reports whether the live pole of one of some sources leads to a load.
func (b *builder) feeds(sources []int, load *Element) bool {
	pole := load.A
	if b.n.Return(pole) {
		pole = load.B
	}
	hot := map[int]bool{}
	for _, s := range sources {
		hot[b.n.Hot(s)] = true
	}
	return b.n.LedTo(pole, func(node int) bool { return hot[node] }, nil)
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
