package wiring

import (
	"strings"

	"hame/check/figures"
	"hame/check/wording"
	"hame/lang/harness"
)

// told is the parts of a tip, one after the other.
type told []string

func (t *told) say(words ...string) { *t = append(*t, strings.Join(words, " ")) }

func (t *told) figure(label string, v *float64, unit string) {
	if v != nil {
		t.say(label, wording.To(3, *v), unit)
	}
}

func (t told) text() string { return strings.Join(t, "; ") }

// wireTip tells a wire's figures.
func (s *scheme) wireTip(w *harness.Wire) string {
	t := told{w.Name + ": " + w.Ends[0].Name() + " to " + w.Ends[1].Name()}
	t.say(wording.Wire(w))
	for _, word := range []string{w.Insulation, strings.Trim(w.Colour+"/"+w.Stripe, "/"), w.Word("label")} {
		if word != "" {
			t.say(word)
		}
	}
	f := s.facts.Wire(w)
	if f == nil {
		return t.text()
	}
	t.figure(most("greatest current", f.Worst), f.WorstA, "A")
	t.figure("may carry", f.AmpacityA(), "A")
	if len(f.ProtectedBy) > 0 {
		t.say("protected by", strings.Join(f.ProtectedBy, ", "))
	}
	for _, m := range f.Modes {
		if m.CurrentA != nil && *m.CurrentA != 0 {
			t.figure("in "+m.Mode, m.CurrentA, "A")
			t.figure("drop in "+m.Mode, m.DropV, "V")
		}
	}
	return t.text()
}

// most says that a figure is a bound where it is one.
func most(what string, p *figures.Position) string {
	if p != nil && p.Bound {
		return what + " at most"
	}
	return what
}

// deviceTip tells a device's figures.
func (s *scheme) deviceTip(d *harness.Device) string {
	t := told{d.Name + ": " + d.Kind.Title()}
	for _, word := range []string{ratingOf(d), d.Word("label"), placeOf(d), prefixed("part", d.Word("part"))} {
		if word != "" {
			t.say(word)
		}
	}
	if d.Existing {
		t.say("machine's own")
	}
	f := s.figures[d]
	t.figure(most("greatest current", f.Worst), f.WorstA, "A")
	for _, m := range f.Modes {
		if m.On {
			t.figure("in "+m.Mode, m.Volts, "V")
			t.figure("and", m.CurrentA, "A")
		}
	}
	return t.text()
}
