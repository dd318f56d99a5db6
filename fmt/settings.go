package format

import (
	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/token"
)

// keyedGroup is the columns of the settings that are given again and again
// under one key, such as a panel's ways.
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
// the first value where it is keyed by that, and its values.
func (s *setter) settingRow(n *node) {
	s.start(settingColumns)
	if n.raw {
		start := len(s.buf)
		s.buf = s.appendRaw(s.buf, n)
		s.add(0, start, 0, 0)
		return
	}
	keyed, next := s.keyedBy(n), n.first+1
	if keyed {
		next++
	}
	s.cell(0, n.first, next)
	if n.goesOn || next > n.last || n.open != none {
		s.openValue(n, next)
		return
	}
	if !keyed {
		s.values(next, n.last)
		return
	}
	s.keyedValues(n, next)
}

// keyedBy reports a setting that is keyed by one token behind its key.
func (s *setter) keyedBy(n *node) bool {
	second := n.first + 1
	if second > n.last || n.goesOn || !repeats[s.tok(n.first)] {
		return false
	}
	switch s.kind(second) {
	case token.Word, token.Dotted:
		return second == n.last || s.kind(second+1) != token.Slash
	case token.Number:
		return second == n.last || s.kind(second+1) == token.String ||
			s.kind(second+1) == token.Word && !quantity.Known(s.tok(second+1))
	}
	return false
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

// keyedValues adds the values of a keyed setting in columns of their own: words,
// a quantity, words behind it, and a text.
func (s *setter) keyedValues(n *node, next int) {
	col := s.keyedColumns(s.tok(n.first))
	end := n.last + 1
	number, text := next, next
	for text < end && s.kind(text) != token.String {
		text++
	}
	for number < text && s.numberAt(number, text) == 0 {
		number++
	}
	after := s.quantityEnd(number, text)
	s.cell(col, next, number)
	s.cell(col+1, number, after)
	s.cell(col+2, after, text)
	s.cell(col+3, text, end)
}

// quantityEnd is the token behind a number and its unit.
func (s *setter) quantityEnd(at, end int) int {
	if at == end {
		return end
	}
	at++
	if at+1 < end && s.kind(at) == token.Slash {
		at += 2
	}
	if at < end && (s.kind(at) == token.Percent || s.kind(at) == token.Word && quantity.Known(s.tok(at))) {
		at++
	}
	return at
}

func (s *setter) keyedColumns(key string) int {
	for _, g := range s.keyed {
		if g.key == key {
			return g.first
		}
	}
	first := len(s.cols)
	s.keyed = append(s.keyed, keyedGroup{key, first})
	s.cols = append(s.cols,
		column{prev: 0, gap: 2, loose: true}, column{prev: first, gap: 1, loose: true},
		column{prev: first + 1, gap: 1, loose: true}, column{prev: first + 2, gap: 2, loose: true})
	return first
}
