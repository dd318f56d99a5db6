package core

import (
	"strings"

	"hame/check/figures"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/source"
)

// Hint is a short text behind an offset, and the longer one that explains it.
type Hint struct {
	Offset int
	Label  string
	Note   *Note
}

// WireHints lists, for the wires of a file, computed length and worst current
// against ampacity.
func (p *Pass) WireHints(file string, within source.Span) []Hint {
	if p.bound() == nil {
		return nil
	}
	var list []Hint
	for _, f := range p.Run.Figures.Wires {
		w := f.Wire
		if p.at(w.Origin.Place(), file, within) {
			if label := wireLabel(f); label != "" {
				n := &Note{}
				wireFigures(n, f)
				list = append(list, Hint{lineEnd(w.Origin), label, n})
			}
		}
	}
	return list
}

// lineEnd is behind all that stands on a name's line, so that what is set in
// columns stays in them.
func lineEnd(o harness.Origin) int {
	line := o.File.Position(o.Name.Start).Line
	return o.File.LineStart(line) + len(strings.TrimRight(o.File.Line(line), " \t"))
}

func wireLabel(f *figures.Wire) string {
	var words []string
	if f.Wire.HasLength && !f.Wire.LengthSaid {
		words = append(words, number(f.Wire.LengthM)+" m")
	}
	bound := ""
	if f.Worst != nil && f.Worst.Bound {
		bound = " (bound)"
	}
	switch a := f.AmpacityA(); {
	case f.WorstA == nil:
	case a == nil:
		words = append(words, number(*f.WorstA)+" A"+bound)
	default:
		words = append(words, number(*f.WorstA)+" of "+number(*a)+" A"+bound)
	}
	return strings.Join(words, ", ")
}

// LoadHints lists the least volts that the loads of a file get while they are
// on.
func (p *Pass) LoadHints(file string, within source.Span) []Hint {
	if p.bound() == nil {
		return nil
	}
	var list []Hint
	for _, f := range p.Run.Figures.Devices {
		d := f.Device
		m := least(f)
		if m == nil || !d.Is(kinds.Load) || !p.at(d.Origin.Place(), file, within) {
			continue
		}
		n := &Note{}
		deviceFigures(n, p, f, "")
		list = append(list, Hint{lineEnd(d.Origin), number(*m.Volts) + " V in " + m.Mode, n})
	}
	return list
}

// at reports whether a place lies in a span of a file.
func (p *Pass) at(at finding.Place, file string, within source.Span) bool {
	return at.File != nil && p.PathOf(at.File) == file && at.Start >= within.Start && at.End <= within.End
}

// Lens is a line of text above a declaration.
type Lens struct {
	Span  source.Span
	Title string
}

// Lenses lists what protective devices carry and what modes draw, for the
// declarations of a file.
func (p *Pass) Lenses(file string) []Lens {
	if p.bound() == nil {
		return nil
	}
	everywhere := source.Span{End: int(^uint(0) >> 1)}
	var list []Lens
	for _, f := range p.Run.Figures.Devices {
		if title := p.lensOf(f); title != "" && p.at(f.Device.Origin.Place(), file, everywhere) {
			list = append(list, Lens{f.Device.Origin.Name, title})
		}
	}
	for _, m := range p.Run.Figures.Modes {
		if !m.Mode.Implied && p.at(m.Mode.Origin.Place(), file, everywhere) {
			title := "loads " + amount(m.SupplyA, "A") + ", " + batteryLine(m)
			if m.HoursToFlat != nil {
				title += ", flat in " + number(*m.HoursToFlat) + " h"
			}
			list = append(list, Lens{m.Mode.Origin.Name, title})
		}
	}
	return list
}

func (p *Pass) lensOf(f *figures.Device) string {
	d := f.Device
	switch {
	case d.Is(kinds.Protection, "panel"):
		if limit, ok := d.SI("limit"); ok && d.Terminal("feed") != nil {
			feed, at := p.wayLoad(d.Terminal("feed"))
			return "worst " + worst(feed, at) + " of " + number(limit) + " A" + prefixed(", ", shareOf(feed, limit))
		}
	case d.Is(kinds.Protection):
		if rating, ok := d.SI("rating"); ok {
			title := "worst " + worst(f.WorstA, f.Worst) + " of " + number(rating) + " A" + prefixed(", ", shareOf(f.WorstA, rating))
			return title + prefixed(", protects ", strings.Join(p.protects(d.Name), ", "))
		}
	}
	return ""
}
