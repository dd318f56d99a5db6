package note

import (
	"fmt"
	"math"

	"hame/check/figures"
	"hame/check/network"
	"hame/check/states"
	"hame/check/wording"
)

// worst writes the position in which an element carries the most, and what is
// on in it.
func (w *work) worst(element int) {
	s := w.section("Worst position")
	found := w.f.Survey.Worst[element]
	w.covered(s)
	const nothing = 1e-6
	if found.At == nil || found.Amps < nothing {
		s.say("greatest current", "none: it carries nothing in any position")
		return
	}
	row := s.add("greatest current", figure(found.Amps, "A"))
	row.words("of every position that was covered")
	if found.Bound {
		row.words("a bound that no position goes above; the one below comes nearest")
	}
	corner := found.At.Figure().Corner
	s.say("where", wording.Position(found.At.Figure()))
	s.say(corner, corners[corner])
	w.otherCorner(s, element, found)
	w.loadsOn(s, element, found)
}

// covered says how many positions the survey covered and how.
func (w *work) covered(s *Section) {
	v := w.f.Survey
	how := "each solved"
	if v.Method == "bound" {
		how = "the independent parts solved, the rest bounded from what sources give and loads take"
	}
	settings := fmt.Sprintf("%.0f settings", v.Covered)
	switch v.Covered {
	case 1:
		settings = "1 setting"
	case figures.ManyPositions:
		settings = "more than 9e15 settings"
	}
	s.say("covered", settings+" of the switches, with each position of the key and the engine at both corners, and the modes: "+how)
}

// otherCorner shows what the corner does: the same switches at the other one.
func (w *work) otherCorner(s *Section, element int, found states.Worst) {
	other, ok := w.f.OtherCorner(found.At)
	if !ok || found.Bound {
		return
	}
	s.add("at the other corner", figure(flow(w.f.Again(&other), element), "A")).
		words("the same switches, " + other.Corner.String())
}

// loadsOn lists what is on in the worst position, of what lies behind the
// element where that can be told.
func (w *work) loadsOn(s *Section, element int, found states.Worst) {
	p := w.f.Again(found.At)
	if amps := flow(p, element); !found.Bound && math.Abs(amps-found.Amps) > 1e-6*found.Amps {
		s.Words = append(s.Words, "There a relay holds itself in by its own contact, from an earlier position.")
		return
	}
	loads, either := w.f.Behind(element)
	behind := len(loads) > 0 && !either && w.n.Elements[element].Kind != network.Load
	if !behind {
		loads = w.allLoads()
	}
	t := &Table{Head: "on there", Columns: []Column{{Name: "current", Unit: "A"}}}
	sum := 0.0
	for _, i := range loads {
		if w.f.On(p, i) {
			t.line(w.n.Elements[i].Name, value(flow(p, i)))
			sum += flow(p, i)
		}
	}
	const same = 1e-6
	if behind && math.Abs(sum-flow(p, element)) < same*max(1, sum) {
		t.line("sum", value(sum)).Sum = true
	}
	if len(t.Rows) > 0 {
		s.Table = t
	}
}

func (w *work) allLoads() []int {
	var list []int
	for i := range w.n.Elements {
		if w.n.Elements[i].Kind == network.Load {
			list = append(list, i)
		}
	}
	return list
}
