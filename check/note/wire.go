package note

import (
	"strings"

	"hame/check/wording"
)

// ofWire writes a wire's note.
func (w *work) ofWire() {
	wire := w.wire
	insulation := wire.Insulation
	if insulation == "" {
		insulation = "insulation unknown"
	}
	words := []string{wire.Ends[0].Name() + " -> " + wire.Ends[1].Name() + ",", wording.Wire(wire) + ",", insulation}
	w.note.Title = strings.Join(words, " ") + ", " + string(w.n.Side(wire)) + " side"
	w.lengths()
	w.wireModes()
	w.worst(w.elements[0])
	w.way(w.elements[0])
	w.heat()
	w.ampacity()
	w.protection()
	w.shorts()
}
