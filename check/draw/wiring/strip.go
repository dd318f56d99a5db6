package wiring

import (
	"fmt"
	"sort"
	"strings"

	"hame/check/draw"
	"hame/check/draw/symbols"
	"hame/lang/harness"
	"hame/lang/kinds"
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
func (s *scheme) stripOf(v *view, o Options, pageWide float64) strip {
	left := pageWide - 2*edgeMM - titleWide - 2*padMM
	p := strip{keys: v.keys(), across: max(1, int(left/keyWide))}
	for _, text := range s.prose(v, o) {
		p.lines = append(p.lines, lines(text, proseMM, left)...)
	}
	p.styles = s.styles(v)
	p.high = max(titleHigh, 2*padMM+keyHigh*float64(p.rows())+proseStep*float64(len(p.lines)))
	return p
}

func (p strip) rows() int { return (len(p.keys) + len(p.styles) + p.across - 1) / p.across }

// style is a style of line, as the key explains it.
type style struct {
	words     string
	own, live bool
}

// styles are those that a sheet uses.
func (s *scheme) styles(v *view) []style {
	list := []style{{words: "wire"}}
	own := false
	for _, k := range []*block{v.circuits, v.low} {
		for _, r := range k.runs {
			own = own || r.wire != nil && r.wire.Existing
		}
		for _, n := range k.nodes {
			own = own || n.box != nil && n.box.device.Existing
		}
	}
	if own {
		list = append(list, style{words: "machine's own", own: true})
	}
	if s.mode != nil {
		list = append(list, style{words: "live in " + s.mode.name, live: true})
	}
	return list
}

// keys are the devices whose symbols the key explains. Panels, keys and connectors
// are boxes with words in them.
func (v *view) keys() []*harness.Device {
	var list []*harness.Device
	seen := map[string]bool{}
	for _, k := range []*block{v.circuits, v.low} {
		for _, n := range k.nodes {
			if n.box == nil {
				continue
			}
			d := n.box.device
			if title := d.Kind.Title(); !seen[title] && !d.Is(kinds.Protection, "panel") && !d.Is(kinds.Switch, "key") && !d.Has("input") {
				seen[title] = true
				list = append(list, d)
			}
		}
	}
	order := func(d *harness.Device) int {
		for i, k := range kinds.All() {
			if k == d.Kind {
				return i
			}
		}
		return 0
	}
	sort.SliceStable(list, func(a, b int) bool { return order(list[a]) < order(list[b]) })
	return list
}

// prose is what is said in the strip.
func (s *scheme) prose(v *view, o Options) []string {
	list := []string{"On each wire: its number, its gauge in mm2 (or AWG), its colour" + s.colours(v) + "."}
	if s.strip {
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
	for colour, short := range letters {
		if used[colour] {
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
	middle := f.wide - edgeMM - titleWide
	pic.Add(draw.Line{Points: []draw.Point{{X: edgeMM, Y: f.strip}, {X: f.wide - edgeMM, Y: f.strip}}, Ink: thin})
	pic.Add(draw.Line{Points: []draw.Point{{X: middle, Y: f.strip}, {X: middle, Y: f.high - edgeMM}}, Ink: thin})
	x, y := edgeMM+padMM, f.strip+padMM
	for i := range len(p.styles) + len(p.keys) {
		at := draw.Point{X: x + keyWide*float64(i%p.across), Y: y + keyHigh*float64(i/p.across) + keyHigh/2 - 1}
		if i < len(p.styles) {
			pic.Add(p.styles[i].draw(at)...)
		} else {
			pic.Add(symbolKey(p.keys[i-len(p.styles)], at)...)
		}
	}
	y += keyHigh * float64(p.rows())
	for i, l := range p.lines {
		pic.Add(draw.Text{At: draw.Point{X: x, Y: y + proseStep*float64(i) + proseMM}, Words: l, SizeMM: proseMM})
	}
	s.title(pic, v, of, o, draw.Point{X: middle + padMM, Y: f.strip + padMM})
}

// draw shows a stretch of wire in the style.
func (l style) draw(at draw.Point) []draw.Item {
	stretch := []draw.Point{at, at.Add(14, 0)}
	items := strand(&harness.Wire{Colour: "blue", Existing: l.own}, stretch, l.live)
	return append(items, draw.Text{At: at.Add(15.5, 0.7), Words: draw.Cut(l.words, proseMM, false, keyWide-16.5), SizeMM: proseMM})
}

// symbolKey explains a symbol.
func symbolKey(d *harness.Device, at draw.Point) []draw.Item {
	const wide, high = 14, 7.5
	sym := symbols.Of(d.Kind, d, symbols.Words{}, symbols.Style{})
	var drawn []draw.Item
	for _, i := range sym.Items {
		if t, words := i.(draw.Text); !words || t.Words == "G" || t.Words == "M" || t.Words == "=" {
			drawn = append(drawn, i)
		}
	}
	b, ok := draw.Bounds(drawn...)
	if !ok {
		return nil
	}
	k := min(1, wide/(b.Right-b.Left), high/(b.Bottom-b.Top))
	origin := at.Add(wide/2-k*(b.Left+b.Right)/2, -k*(b.Top+b.Bottom)/2)
	name := d.Kind.Name
	if d.Is(kinds.Ground) && name != "chassis" {
		name = "return " + name
	}
	return append(placed(drawn, k, origin), draw.Text{At: at.Add(15.5, 0.7), Words: name, SizeMM: proseMM})
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
	say(18, 2.4, false, joined("Harness", s.harness.Name+",", system+",", "practice", s.harness.Practice))
	say(22, 2.4, false, joined(o.File, o.Date))
	verdict := o.Verdict
	if verdict != "" {
		say(27.5, 3.2, true, verdict)
	}
}
