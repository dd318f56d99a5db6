package sheets

import (
	"slices"
	"strings"

	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// lacks keeps what a sheet could not say for want of a fact: what is wanted, and
// of which names, each once, in the order in which it was met.
type lacks struct {
	wanted []string
	of     map[string][]string
}

func (l *lacks) say(what, of string) {
	if l.of == nil {
		l.of = map[string][]string{}
	}
	if _, met := l.of[what]; !met {
		l.wanted = append(l.wanted, what)
	}
	if !slices.Contains(l.of[what], of) {
		l.of[what] = append(l.of[what], of)
	}
}

// into prints them as a foot note.
func (l *lacks) into(s *sheet.Sheet) {
	var notes []string
	for _, what := range l.wanted {
		notes = append(notes, what+" "+strings.Join(l.of[what], ", "))
	}
	if len(notes) > 0 {
		s.Add(sheet.Text{Words: "Missing, shown as " + unknown + ": " + strings.Join(notes, "; ") + "."})
	}
}

// sized says of a wire what of its size is missing.
func (l *lacks) sized(w *harness.Wire) {
	switch {
	case w.Auto:
		l.say("a gauge in place of auto of", w.Name)
	case w.AreaMM2 == 0:
		l.say("the gauge of", w.Name)
	}
	if w.Insulation == "" {
		l.say("the insulation of", w.Name)
	}
	if w.Colour == "" {
		l.say("the colour of", w.Name)
	}
}

// fitted says of an end of a wire what would tell its hardware.
func (l *lacks) fitted(w *harness.Wire, e harness.End) {
	switch {
	case e.Hardware != "":
	case e.Terminal == nil:
		l.say("what both ends land on of", w.Name)
	default:
		l.say(offers(e.Terminal), e.Terminal.Device.Name)
	}
}

// offers names the settings that would say what a terminal offers to a wire. A
// chassis has none, and there the wire itself says what is on its end.
func offers(t *harness.Terminal) string {
	switch {
	case t.Device.Is(kinds.Protection, "panel") && t.Name == "feed":
		return "the feed's stud of"
	case t.Device.Is(kinds.Ground, "chassis"):
		return "ends of the wires on"
	}
	return "tabs, studs, lead, size or post of"
}
