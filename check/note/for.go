package note

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"hame/check"
	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// For is the note of a name in a checked harness: a wire, a load or one of its
// inputs, a protective device or a panel's way, a switch, a relay, a supply.
// mode is the one that its way is followed in; empty for the one in which it
// carries the most. It fails where there is no such name or mode, naming the
// nearest, or the name has no figures of its own.
func For(run *check.Run, name, mode string) (*Note, error) {
	if run.Facts == nil {
		return nil, errors.New("the file holds no harness, only parts; name a file with a `harness`")
	}
	w := &work{f: run.Facts, n: run.Facts.Network}
	if err := w.find(name); err != nil {
		return nil, err
	}
	if err := w.choose(mode); err != nil {
		return nil, err
	}
	w.note = &Note{Harness: run.Harness.Name, Practice: run.Facts.Practice.Name, Name: name, Kind: w.kind}
	if w.mode >= 0 {
		w.note.Mode = w.f.Harness.Modes[w.mode].Name
	}
	w.write()
	return w.note, nil
}

// work is one note in the making.
type work struct {
	f        *facts.Facts
	n        *network.Network
	note     *Note
	kind     string
	wire     *harness.Wire   // or
	device   *harness.Device // of the others
	elements []int           // of the name: what carries its current
	mode     int             // -1 where there is none
}

// write writes the sections of the kind.
func (w *work) write() {
	switch w.kind {
	case kindWire:
		w.ofWire()
	case kindLoad:
		w.ofLoad()
	case kindProtection:
		w.ofProtection()
	case kindRelay:
		w.ofRelay()
	case kindSwitch:
		w.ofSwitch()
	case kindSupply:
		w.ofSupply()
	}
}

func (w *work) section(title string) *Section {
	w.note.Sections = append(w.note.Sections, Section{Title: title})
	return &w.note.Sections[len(w.note.Sections)-1]
}

// point is the chosen mode, solved; nil where there is none.
func (w *work) point() *states.Point {
	if w.mode < 0 {
		return nil
	}
	return w.f.Survey.Modes[w.mode]
}

// flow is the magnitude of what an element carries; what is but the solver's
// last digits is nothing.
func flow(p *states.Point, i int) float64 {
	const nothing = 1e-9
	if amps := math.Abs(p.Amps(i)); amps > nothing {
		return amps
	}
	return 0
}

// amps is what the name's elements carry together in a position.
func (w *work) amps(p *states.Point) float64 {
	sum := 0.0
	for _, i := range w.elements {
		sum += p.Amps(i)
	}
	return sum
}

// main is the element that carries the most in the chosen mode, else the first.
func (w *work) main() int {
	p := w.point()
	best := w.elements[0]
	for _, i := range w.elements {
		if p != nil && math.Abs(p.Amps(i)) > math.Abs(p.Amps(best)) {
			best = i
		}
	}
	return best
}

// choose finds the mode: the named one, else the one of the greatest current.
func (w *work) choose(name string) error {
	w.mode = -1
	var names []string
	for i, m := range w.f.Harness.Modes {
		names = append(names, m.Name)
		switch {
		case name == m.Name:
			w.mode = i
			return nil
		case w.mode < 0 || math.Abs(w.amps(w.f.Survey.Modes[i])) > math.Abs(w.amps(w.point()))*(1+1e-9):
			w.mode = i
		}
	}
	if name != "" {
		return fmt.Errorf("there is no mode `%s`%s\nmodes: %s", name, kinds.DidYouMean(name, names), strings.Join(names, ", "))
	}
	return nil
}
