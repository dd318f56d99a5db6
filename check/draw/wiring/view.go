package wiring

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hame/check/draw/symbols"
	"hame/check/figures"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// view is one sheet: the circuits, and the return side below them.
type view struct {
	number        int
	circuits, low *block
	marks         bool // returns end in marks
}

// A wire is drawn to a point of the return side where a harness has few returns;
// where they are more, each ends in a mark with the point's name.
const fewReturns = 8

// views lays all sheets out, the boxes being on the sheets that they say.
func (s *scheme) views() []*view {
	s.strip = s.sheets > 1 || s.returning() > fewReturns
	var list []*view
	for n := range s.sheets {
		list = append(list, &view{number: n + 1, circuits: newBlock(), low: newBlock(), marks: s.strip})
	}
	for _, b := range s.inOrder() {
		v := list[b.sheet]
		if s.strip && b.collects {
			v.low.put(s, b, s.gathered(b))
		} else {
			v.circuits.put(s, b, s.withReturns(b))
		}
	}
	for _, w := range s.harness.Wires {
		s.lead(w, list)
	}
	if s.strip {
		s.bonds(list)
	}
	for _, v := range list {
		v.circuits.lay(s)
		v.low.lay(s)
	}
	return list
}

// inOrder lists the boxes with the supplies first, as the search for an order of
// the columns begins.
func (s *scheme) inOrder() []*box {
	list := slices.Clone(s.boxes)
	slices.SortStableFunc(list, func(a, b *box) int {
		return cmp.Compare(s.first(a), s.first(b))
	})
	return list
}

func (s *scheme) first(b *box) int {
	if b.device.Is(kinds.Supply) {
		return 0
	}
	return 1
}

// returning counts the wires that end on points of the return side, or come back
// to a source.
func (s *scheme) returning() int {
	n := 0
	for _, w := range s.harness.Wires {
		if s.low(w.Ends[0]) || s.low(w.Ends[1]) || s.wayBack(w, 0) || s.wayBack(w, 1) {
			n++
		}
	}
	return n
}

// low: the end is on a point of the return side.
func (s *scheme) low(e harness.End) bool {
	return e.Terminal != nil && s.of[e.Terminal].collects
}

// lead draws a wire: on one sheet, or a half on each of two.
func (s *scheme) lead(w *harness.Wire, list []*view) {
	a, b := w.Ends[0], w.Ends[1]
	fa, fb := s.flagFor(w, 0), s.flagFor(w, 1)
	if fa == nil && fb == nil && s.of[a.Terminal].sheet != s.of[b.Terminal].sheet {
		s.halves(w, list)
		return
	}
	k := s.blockOf(a, b, fa, fb, list)
	if fa != nil {
		fa.right = s.leftward(k, b, fb)
	}
	if fb != nil {
		fb.right = fa == nil && s.leftward(k, a, fa)
	}
	k.join(w, k.end(s, a.Terminal, fa), k.end(s, b.Terminal, fb))
}

func (k *block) join(w *harness.Wire, a, b *landing) {
	k.runs = append(k.runs, &run{wire: w, ends: [2]*landing{a, b}})
}

// flagFor is the flag at which an end of a wire stops; nil where it lands.
func (s *scheme) flagFor(w *harness.Wire, end int) *flag {
	e := w.Ends[end]
	switch {
	case e.Capped:
		return &flag{cause: capped}
	case e.Terminal == nil:
		return &flag{cause: unknown}
	case s.strip && (s.low(e) && !s.low(w.Ends[1-end]) || s.wayBack(w, end)):
		f := &flag{cause: returns, name: cut(e.Name(), symbols.DetailMM, true), bonded: bonded(e.Terminal.Device)}
		if o := w.Ends[1-end].Terminal; o != nil && s.of[o].sheet != s.of[e.Terminal].sheet {
			f.sheet = s.of[e.Terminal].sheet + 1
		}
		return f
	}
	return nil
}

// bonded reports whether a point of the return side is a chassis, or on one.
func bonded(d *harness.Device) bool { return d.Is(kinds.Ground, "chassis") || d.Word("to") != "" }

// wayBack: the end is a source's return pole, and the wire comes to it from afar.
func (s *scheme) wayBack(w *harness.Wire, end int) bool {
	t, other := w.Ends[end].Terminal, w.Ends[1-end].Terminal
	return t != nil && other != nil && t.Device.Is(kinds.Supply) && other.Device.Is(kinds.Load) && s.facts.Network.Side(w) == figures.Return
}

// blockOf is the block of a wire that has at most one end to stand on elsewhere.
func (s *scheme) blockOf(a, b harness.End, fa, fb *flag, list []*view) *block {
	switch {
	case fa == nil:
		return list[s.of[a.Terminal].sheet].holding(s, a.Terminal)
	case fb == nil:
		return list[s.of[b.Terminal].sheet].holding(s, b.Terminal)
	}
	return list[0].circuits
}

// holding is the block that a terminal stands in.
func (v *view) holding(s *scheme, t *harness.Terminal) *block {
	if s.strip && s.of[t].collects {
		return v.low
	}
	return v.circuits
}

// leftward: a flag stands at the left of the end that its wire comes from. Beside
// another flag the first one does.
func (s *scheme) leftward(k *block, e harness.End, f *flag) bool {
	if f != nil {
		return true
	}
	l := k.end(s, e.Terminal, nil)
	return l.side() == atLeft
}

// halves draws a wire on two sheets, each half to a flag that names the other.
func (s *scheme) halves(w *harness.Wire, list []*view) {
	a, b := w.Ends[0].Terminal, w.Ends[1].Terminal
	here, there := list[s.of[a].sheet], list[s.of[b].sheet]
	fa := &flag{cause: sheet, name: cut(b.FullName(), symbols.DetailMM, true), sheet: there.number}
	fb := &flag{cause: sheet, name: cut(a.FullName(), symbols.DetailMM, true), sheet: here.number, other: fa}
	fa.other = fb
	from, to := here.holding(s, a), there.holding(s, b)
	la, lb := from.end(s, a, nil), to.end(s, b, nil)
	fa.right = la.side() == atLeft || la.side() == atEither && s.dist[b.Index] < s.dist[a.Index]
	fb.right = lb.side() == atLeft || lb.side() == atEither && s.dist[a.Index] <= s.dist[b.Index]
	from.join(w, la, from.end(s, nil, fa))
	to.join(w, to.end(s, nil, fb), lb)
}

// bonds joins the ground points to their chassis.
func (s *scheme) bonds(list []*view) {
	for _, b := range s.boxes {
		d := b.device
		to := d.Word("to")
		if to == "" || d.Has("via") {
			continue
		}
		for _, c := range s.boxes {
			if c.device.Name == to && c.device.Is(kinds.Ground, "chassis") && c.sheet == b.sheet {
				k := list[b.sheet].low
				k.runs = append(k.runs, &run{bond: b, ends: [2]*landing{k.end(s, c.device.Terminals[0], nil), k.end(s, d.Terminals[0], nil)}})
				break
			}
		}
	}
}

// gathered is what stands beside a point of the return side: its words, and the
// wires that end on it from the circuits.
func (s *scheme) gathered(b *box) symbols.Words {
	words := s.wordsOf(b)
	var names []string
	for _, w := range b.device.Terminals[0].Wires {
		if !s.low(w.Ends[0]) || !s.low(w.Ends[1]) {
			names = append(names, w.Name)
		}
	}
	words.Details = append(words.Details, wrapped(names)...)
	return words
}

// withReturns is what stands beside a device, and beside a source the wires that
// come back to it with a mark.
func (s *scheme) withReturns(b *box) symbols.Words {
	words := s.wordsOf(b)
	var names []string
	for _, t := range b.device.Terminals {
		for _, w := range t.Wires {
			for end := range w.Ends {
				if s.strip && w.Ends[end].Terminal == t && s.wayBack(w, end) {
					names = append(names, w.Name)
				}
			}
		}
	}
	if len(names) > 0 {
		words.Details = append(words.Details, wrapped(append([]string{"to −:"}, names...))...)
	}
	return words
}

// wrapped sets names on as many lines as they take, a few at most.
func wrapped(names []string) []string {
	const mostLines = 6
	var lines []string
	line := ""
	for i, n := range names {
		next := strings.TrimSpace(line + " " + n)
		if line != "" && cut(next, symbols.DetailMM, false) != next {
			if len(lines) == mostLines-1 {
				return append(lines, fmt.Sprintf("and %d more", len(names)-i))
			}
			lines, next = append(lines, line), n
		}
		line = next
	}
	if line != "" {
		lines = append(lines, cut(line, symbols.DetailMM, false))
	}
	return lines
}
