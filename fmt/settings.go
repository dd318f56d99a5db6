package format

import (
	"hame/lang/kinds"
	"hame/lang/token"
)

// keyedGroup is the columns of settings that are given again and again, such as
// a panel's ways.
type keyedGroup struct {
	key   string
	first int
}

// repeats has the settings that are keyed by their first value.
var repeats = func() map[string]bool {
	names := map[string]bool{}
	var note func(k *kinds.Kind)
	note = func(k *kinds.Kind) {
		for _, s := range k.Settings {
			if s.Repeat {
				names[s.Name] = true
			}
			if s.Block != nil {
				note(s.Block)
			}
		}
	}
	for _, k := range kinds.All() {
		note(k)
	}
	return names
}()

var settingColumns = []column{{prev: none, loose: true}, {prev: 0, gap: 2, loose: true}}

// settingRow makes the cells of a setting on a line of its own: its key, with
// the number that it is keyed by (way 1), and its values.
func (s *setter) settingRow(n *node) {
	s.start(settingColumns)
	if n.raw {
		start := len(s.buf)
		s.buf = s.appendRaw(s.buf, n)
		s.add(0, start, 0, 0)
		return
	}
	keyed, next := s.keyedBy(n), n.first+1
	if keyed == token.Number {
		next++
	}
	s.cell(0, n.first, next)
	switch {
	case n.goesOn || next > n.last || n.open != none:
		s.openValue(n, next)
	case keyed == token.EOF:
		s.values(next, n.last)
	default:
		s.keyedValues(n, next, keyed)
	}
}

// keyedBy is the kind of the one token that a setting is keyed by, EOF if it is
// not: a number, or a word.
func (s *setter) keyedBy(n *node) token.Kind {
	second := n.first + 1
	if second > n.last || n.goesOn || !repeats[s.tok(n.first)] {
		return token.EOF
	}
	last := second == n.last
	switch k := s.kind(second); {
	case k == token.Number && (last || s.kind(second+1) == token.String),
		k == token.Number && s.kind(second+1) == token.Word && !s.isUnit(second+1),
		k == token.Word && (last || s.kind(second+1) != token.Slash):
		return k
	case k == token.Dotted:
		return token.Word
	}
	return token.EOF
}

// values adds the values of a setting as one cell.
func (s *setter) values(from, last int) {
	start := len(s.buf)
	s.buf = s.appendTokens(s.buf, from, last)
	s.add(1, start, 0, 0)
}

// openValue adds the values of a setting with a block, or the first line of
// those that go on in the next.
func (s *setter) openValue(n *node, next int) {
	last := n.last
	if n.goesOn {
		last = s.lineEnd(n)
	}
	start := len(s.buf)
	s.buf = s.appendTokens(s.buf, next, last)
	if last == n.last && n.open != none {
		if len(s.buf) > start {
			s.buf = append(s.buf, ' ')
		}
		s.buf = s.appendBlock(s.buf, n)
	}
	if len(s.buf) > start {
		s.add(1, start, 0, 0)
	}
}

// keyedValues adds the values of a keyed setting in columns of their own: the
// word that it is keyed by, words, a quantity, words behind it, and a text.
func (s *setter) keyedValues(n *node, next int, keyed token.Kind) {
	col := s.keyedColumns(n, keyed)
	if keyed == token.Word {
		s.cell(col, next, next+1)
		next++
	}
	end := n.last + 1
	number, text := next, next
	for text < end && s.kind(text) != token.String {
		text++
	}
	for number < text && s.numberWidth(number, text) == 0 {
		number++
	}
	after := s.quantityEnd(number, text)
	s.cell(col+1, next, number)
	s.cell(col+2, number, after)
	s.cell(col+3, after, text)
	s.cell(col+4, text, end)
}

// keyedColumns are the columns of the settings keyed by a word, or of those
// that are numbered under one key.
func (s *setter) keyedColumns(n *node, keyed token.Kind) int {
	key := ""
	if keyed == token.Number {
		key = s.tok(n.first)
	}
	for _, g := range s.keyed {
		if g.key == key {
			return g.first
		}
	}
	first := len(s.cols)
	s.keyed = append(s.keyed, keyedGroup{key, first})
	s.cols = append(s.cols, column{prev: 0, gap: 2, loose: true})
	for i, gap := range []int{1, 1, 1, 2} {
		s.cols = append(s.cols, column{prev: first + i, gap: gap, loose: true})
	}
	return first
}
