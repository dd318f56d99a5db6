package circuit

import "slices"

// State is one position of a Net: what is on, and what differs from how it was
// built. It also holds the workspace of its solves, so it belongs to one
// goroutine at a time. Copying costs one byte per branch until a value is
// overridden.
type State struct {
	net   *Net
	plan  plan
	owned bool // the values of plan are this state's own, not the net's
	work  *work
	kept  []answer
}

// State returns the network as it was built: contacts open, all else on.
func (n *Net) State() *State {
	s := &State{net: n, plan: n.plan}
	s.plan.on = slices.Clone(n.plan.on)
	return s
}

// Clone returns an independent copy of s without its workspace and answers.
func (s *State) Clone() *State {
	c := &State{net: s.net, plan: s.plan, owned: s.owned}
	c.plan.on = slices.Clone(s.plan.on)
	if s.owned {
		c.plan.siemens = slices.Clone(s.plan.siemens)
		c.plan.laws = slices.Clone(s.plan.laws)
	}
	return c
}

// Reset puts s back to how the network was built.
func (s *State) Reset() {
	copy(s.plan.on, s.net.plan.on)
	s.plan.siemens, s.plan.laws, s.owned = s.net.plan.siemens, s.net.plan.laws, false
	s.forget()
}

// Switch closes or opens a contact, and switches any other branch on or off.
// A branch that is off is an open circuit.
func (s *State) Switch(b Branch, on bool) { s.plan.on[b] = on }

// On tells whether b is switched on.
func (s *State) On(b Branch) bool { return s.plan.on[b] }

// SetOhm makes b a resistance of ohm: a hot wire, a stalled motor, a cold lamp.
func (s *State) SetOhm(b Branch, ohm float64) { s.set(b, siemens(ohm), nil) }

// SetSource makes b a source.
func (s *State) SetSource(b Branch, v Source) { s.set(b, 0, v.curve()) }

// SetPower makes b a constant-power load.
func (s *State) SetPower(b Branch, p Power) { s.set(b, 0, p.curve()) }

// SetCurrent makes b a motor.
func (s *State) SetCurrent(b Branch, m Motor) { s.set(b, 0, m.curve()) }

// SetBulb makes b a filament lamp.
func (s *State) SetBulb(b Branch, v Bulb) { s.set(b, 0, v.curve()) }

// SetDiode makes b a diode.
func (s *State) SetDiode(b Branch, d Diode) { s.set(b, 0, d.curve()) }

// SetConverter replaces the figures of the converter whose input is in. It has
// no effect on any other branch.
func (s *State) SetConverter(in Branch, c Converter) {
	if _, ok := s.plan.laws[in].(inPort); ok {
		s.set(in, 0, inPort{c.port()})
	}
}

// set overrides a value. One that is what it was already changes nothing, so
// that the answers that are kept stay good.
func (s *State) set(b Branch, g float64, l law) {
	if s.plan.siemens[b] == g && s.plan.laws[b] == l {
		return
	}
	s.forget()
	if !s.owned {
		s.plan.siemens = slices.Clone(s.plan.siemens)
		s.plan.laws = slices.Clone(s.plan.laws)
		s.owned = true
	}
	s.plan.siemens[b], s.plan.laws[b] = g, l
}
