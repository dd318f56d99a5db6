package wiring

import (
	"fmt"
	"sort"
	"strings"

	"hame/check/draw"
	"hame/check/wording"
	"hame/lang/harness"
)

// strip is what stands at the foot of a page: the key, the cautions, the title.
type strip struct {
	high   float64
	keys   []*harness.Device // one of each kind that has a plain symbol
	styles []style
	across int      // keys beside each other
	lines  []string // below them
}

// The measures of the strip, in mm.
const (
	titleWide = 88
	titleHigh = 34
	keyWide   = 37
	keyHigh   = 9
	padMM     = 2.5
	proseMM   = 2.0 // type
	proseStep = 2.9
)

// stripOf measures the strip of a page.
func (s *scheme) stripOf(v *view, o Options, f frame) strip {
	left := f.wide - 2*f.edge - 2*padMM
	if !o.InPage {
		left -= titleWide
	}
	p := strip{across: max(1, int(left/keyWide))}
	for _, text := range s.prose(v, o) {
		p.lines = append(p.lines, lines(text, proseMM, left)...)
	}
	if o.InPage {
		p.high = 2*padMM + proseStep*float64(len(p.lines))
		return p
	}
	p.keys, p.styles = keys(v), s.styles(v)
	p.high = max(titleHigh, 2*padMM+keyHigh*float64(p.rows())+proseStep*float64(len(p.lines)))
	return p
}

func (p strip) rows() int { return (len(p.keys) + len(p.styles) + p.across - 1) / p.across }

// prose is what is said in the strip.
func (s *scheme) prose(v *view, o Options) []string {
	list := []string{"On each wire: its number, its gauge in mm2 (or AWG), its colour" + s.colours(v) + "."}
	if v.marks {
		list = append(list, "Returns end in a mark with the name of the point that they lead to; the points stand under Return side, each with the wires that come to it.")
	}
	list = append(list, strings.Join(o.Cautions, " "), o.Defer)
	var said []string
	for _, t := range list {
		if t != "" {
			said = append(said, t)
		}
	}
	return said
}

// colours tells the letters that the sheet uses.
func (s *scheme) colours(v *view) string {
	used := map[string]bool{}
	for _, k := range []*block{v.circuits, v.low} {
		for _, r := range k.runs {
			if r.wire != nil {
				used[r.wire.Colour], used[r.wire.Stripe] = true, true
			}
		}
	}
	var list []string
	for colour := range used {
		if short := letters(colour); short != "" {
			list = append(list, short+" "+colour)
		}
	}
	sort.Strings(list)
	if len(list) == 0 {
		return ""
	}
	return ": " + strings.Join(list, ", ")
}

// lines sets a text on lines of a width.
func lines(text string, sizeMM, wide float64) []string {
	var list []string
	line := ""
	for _, w := range strings.Fields(text) {
		next := strings.TrimSpace(line + " " + w)
		if line != "" && draw.WidthMM(next, sizeMM, false) > wide {
			list, next = append(list, line), w
		}
		line = next
	}
	return append(list, draw.Cut(line, sizeMM, false, wide))
}

// draw draws the strip on its page.
func (p strip) draw(pic *draw.Picture, s *scheme, v *view, of int, o Options, f frame) {
	thin := draw.Ink{WidthMM: 0.35, Colour: draw.Black}
	pic.Add(draw.Line{Points: []draw.Point{{X: f.edge, Y: f.strip}, {X: f.wide - f.edge, Y: f.strip}}, Ink: thin})
	if !o.InPage {
		middle := f.wide - f.edge - titleWide
		pic.Add(draw.Line{Points: []draw.Point{{X: middle, Y: f.strip}, {X: middle, Y: f.high - f.edge}}, Ink: thin})
		s.title(pic, v, of, o, draw.Point{X: middle + padMM, Y: f.strip + padMM})
	}
	x, y := f.edge+padMM, f.strip+padMM
	p.key(pic, x, y)
	y += keyHigh * float64(p.rows())
	for i, l := range p.lines {
		pic.Add(draw.Text{At: draw.Point{X: x, Y: y + proseStep*float64(i) + proseMM}, Words: l, SizeMM: proseMM})
	}
}

// title fills in the title block.
func (s *scheme) title(pic *draw.Picture, v *view, of int, o Options, at draw.Point) {
	const wide = titleWide - 2*padMM
	say := func(y, size float64, bold bool, words string) {
		pic.Add(draw.Text{At: at.Add(0, y), Words: draw.Cut(words, size, bold, wide), SizeMM: size, Bold: bold})
	}
	title := s.harness.Title
	if title == "" {
		title = s.harness.Name
	}
	say(4, 4, true, title)
	say(9.5, 3, false, fmt.Sprintf("Wiring diagram, sheet %d of %d", v.number, of))
	mode := "No mode shown"
	if s.mode != nil {
		mode = "Shown in mode " + s.mode.name
	}
	say(14, 2.4, s.mode != nil, mode)
	system := fmt.Sprintf("%g V", s.harness.SystemV)
	if !s.harness.SystemSaid {
		system += " (taken, not said)"
	}
	say(18, 2.4, false, joined("Harness", wording.Named(s.harness.Name)+",", system+",", "practice", s.harness.Practice))
	say(22, 2.4, false, joined(o.File, o.Date))
	say(27.5, 3.2, true, o.Verdict)
}
