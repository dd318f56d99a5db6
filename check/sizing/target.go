package sizing

import (
	"slices"

	"hame/check/rules"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/tables"
)

// target is a wire to size. Steps count in the list of usual sizes.
type target struct {
	name         string
	was          string
	span         source.Span
	lengthM      float64
	least, most  int // the steps that its ends take
	step         int
	tight        *Smaller // what speaks against a step less
	about        string   // what it is about: of a drop the load
	settled      bool     // it holds whatever the other wires become
	tightAt      int      // the count of thinnings when it was found
	reason, rule string   // why it is not sized
	helps        string
}

// targetsOf lists the wires that are `auto` and those of the names.
func targetsOf(h *harness.Harness, names []string) ([]*target, error) {
	var list []*target
	var known []string
	for _, w := range h.Wires {
		known = append(known, w.Name)
		if (w.Auto || slices.Contains(names, w.Name)) && w.GaugeSpan.End > w.GaugeSpan.Start {
			list = append(list, targetOf(w))
		}
	}
	for _, n := range names {
		if !slices.Contains(known, n) {
			return nil, noWire(n, known)
		}
	}
	return list, nil
}

func targetOf(w *harness.Wire) *target {
	t := &target{name: w.Name, span: w.GaugeSpan, was: w.Origin.File.Text[w.GaugeSpan.Start:w.GaugeSpan.End], tightAt: -1}
	if w.HasLength {
		t.lengthM = w.LengthM
	}
	return t
}

// wire is the target as a result has it, not sized.
func (t *target) wire() Wire {
	return Wire{Name: t.name, Was: t.was, Span: t.span, LengthM: t.lengthM}
}

// systemOf says whether sizes are gauges: as most of the other wires are; where
// they do not say, as the practice's own tables are.
func systemOf(h *harness.Harness, targets []*target) (awg bool, why string) {
	var gauges, areas int
	for _, w := range h.Wires {
		switch {
		case w.AreaMM2 == 0 || slices.ContainsFunc(targets, func(t *target) bool { return t.name == w.Name }):
		case w.Size.IsAWG:
			gauges++
		default:
			areas++
		}
	}
	switch {
	case gauges > areas:
		return true, "AWG, as most other wires of the harness"
	case areas > gauges:
		return false, "mm2, as most other wires of the harness"
	case h.Practice == "land" || h.Practice == "":
		return false, "mm2: the other wires do not say which, and practice land counts in it"
	}
	return true, "AWG: the other wires do not say which, and practice " + h.Practice + " counts in it"
}

// ofReading reports whether a rule is judged while the text is read and bound.
func ofReading(rule string) bool {
	r := rules.Find(rule)
	return r == nil || r.Check == nil && r.Watch == nil
}

// stepFor is the first step of a list that is not thinner than an area.
func stepFor(sizes []tables.Size, areaMM2 float64) int {
	const same = 1e-6
	for i, s := range sizes {
		if s.AreaMM2() >= areaMM2*(1-same) {
			return i
		}
	}
	return len(sizes) - 1
}

// stepWithin is the last step of a list that is not thicker than an area; below
// none where there is none.
func stepWithin(sizes []tables.Size, areaMM2 float64) int {
	const same = 1e-6
	last := -1
	for i, s := range sizes {
		if s.AreaMM2() <= areaMM2*(1+same) {
			last = i
		}
	}
	return last
}
