package wiring

import (
	"sort"

	"hame/check/draw"
	"hame/check/draw/symbols"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// style is a style of line, as the key explains it.
type style struct {
	words     string
	own, live bool
}

// styles are those that sheets use.
func (s *scheme) styles(views ...*view) []style {
	list := []style{{words: "wire"}}
	own := false
	for _, k := range blocks(views) {
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

func blocks(views []*view) []*block {
	var list []*block
	for _, v := range views {
		list = append(list, v.circuits, v.low)
	}
	return list
}

// keys are the devices whose symbols the key explains. Panels, keys and connectors
// are boxes with words in them.
func keys(views ...*view) []*harness.Device {
	var list []*harness.Device
	seen := map[string]bool{}
	for _, k := range blocks(views) {
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

// key explains lines and symbols, row by row.
func (p strip) key(pic *draw.Picture, x, y float64) {
	for i := range len(p.styles) + len(p.keys) {
		at := draw.Point{X: x + keyWide*float64(i%p.across), Y: y + keyHigh*float64(i/p.across) + keyHigh/2 - 1}
		if i < len(p.styles) {
			pic.Add(p.styles[i].draw(at)...)
		} else {
			pic.Add(symbolKey(p.keys[i-len(p.styles)], at)...)
		}
	}
}

// keyPage is the key of all sheets as a picture of its own.
func (s *scheme) keyPage(views []*view, o Options) *draw.Picture {
	wide := papers[o.Paper][0] - besideMM
	p := strip{keys: keys(views...), styles: s.styles(views...), across: int(wide / keyWide)}
	pic := &draw.Picture{
		Name: "wiring-key", Title: "Key of the wiring diagram", Describe: "The symbols and styles of line that the wiring diagram uses.",
		WidthMM: wide, HeightMM: max(60, 2*padMM+keyHigh*float64(p.rows())),
	}
	p.key(pic, padMM, padMM)
	return pic
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
