package format

import "unicode/utf8"

// columns of each table: which one stands before, how far, and whether a row's
// last cell may widen it.
var (
	plainColumns = []column{{prev: none, loose: true}, {prev: 0, gap: 1, loose: true}}
	zoneColumns  = []column{
		{prev: none},                   // zone or place
		{prev: 0, gap: 1, loose: true}, // a zone's name
		{prev: 1, gap: 1, loose: true}, // its block
		{prev: 0, gap: 1},              // names of places
		{prev: 3, gap: 1, loose: true}, // in their zone
	}
	bundleColumns = []column{
		{prev: none}, {prev: 0, gap: 2}, {prev: 1, gap: 2}, {prev: 2, gap: 1, loose: true},
	}
	partColumns = []column{
		{prev: none}, {prev: 0, gap: 1, loose: true}, {prev: 1, gap: 1, loose: true},
	}
	wireColumns = func() []column {
		list := []column{{prev: none}, {prev: 0, gap: 2}, {prev: 1, gap: 1}, {prev: 2, gap: 2}}
		for words := range 3 {
			at := wireTail + wireTailLen*words
			list = append(list, column{prev: wireTail - 1, gap: 2}, column{prev: at, gap: 2},
				column{prev: at + 1, gap: 2}, column{prev: at + 2, gap: 2, loose: true})
		}
		return list
	}()
)

// A wire's last columns are those of the rows with as many words: wires that
// name an insulation stand among their like, and the others have no hole.
const (
	wireTail    = 4
	wireTailLen = 4
)

// row makes the cells of a statement.
func (s *setter) row(n *node) {
	switch n.table() {
	case setting:
		s.settingRow(n)
	case zone:
		s.zoneRow(n)
	case bundle:
		s.bundleRow(n)
	case part:
		s.partRow(n)
	case wire:
		s.wireRow(n)
	default:
		s.start(plainColumns)
		s.plainRow(n)
	}
}

func (s *setter) start(cols []column) {
	if len(s.cols) == 0 {
		s.cols = append(s.cols, cols...)
	}
}

func (s *setter) plainRow(n *node) {
	if n.raw {
		return
	}
	last := n.last
	if n.goesOn {
		last = s.lineEnd(n)
	}
	s.cell(0, n.first, last+1)
	if last == n.last {
		s.blockCells(n, 1)
	}
}

func (s *setter) zoneRow(n *node) {
	s.start(zoneColumns)
	s.cell(0, n.first, n.first+1)
	if n.form == zone {
		s.cell(1, n.first+1, n.last+1)
		s.blockCells(n, 2)
		return
	}
	s.cell(3, n.first+1, n.cells.rest)
	s.cell(4, n.cells.rest, n.last+1)
}

func (s *setter) bundleRow(n *node) {
	s.start(bundleColumns)
	s.cell(0, n.first, n.cells.from)
	s.cell(1, n.cells.from, n.cells.length)
	s.cell(2, n.cells.length, n.last+1)
	s.blockCells(n, 3)
}

func (s *setter) partRow(n *node) {
	s.start(partColumns)
	s.cell(0, n.first, n.cells.rest)
	s.cell(1, n.cells.rest, n.last+1)
	s.blockCells(n, 2)
}

func (s *setter) wireRow(n *node) {
	s.start(wireColumns)
	c := n.cells
	length := before(c.length, n.last+1)
	more := before(c.more, length)
	word := before(c.word, more)
	s.cell(0, n.first, c.from)
	s.cell(1, c.from, c.arrow)
	s.cell(2, c.arrow, c.gauge)
	s.cell(3, c.gauge, word)
	tail := wireTail
	if c.word > 0 {
		tail += wireTailLen
	}
	if c.more > 0 {
		tail += wireTailLen
	}
	s.cell(tail, word, more)
	s.cell(tail+1, more, length)
	s.cell(tail+2, length, n.last+1)
	s.blockCells(n, tail+3)
}

// before is a cell's start, or where the next one starts if there is none.
func before(start, next int) int {
	if start == 0 {
		return next
	}
	return start
}

// cell adds a cell of the tokens from up to next, if there are any. One that
// is a quantity alone has it set flush right.
func (s *setter) cell(col, from, next int) {
	if from == next {
		return
	}
	start := len(s.buf)
	s.buf = s.appendTokens(s.buf, from, next-1)
	s.add(col, start, 0, s.numberWidth(from, next))
}

// add makes a cell of the buffer's end.
func (s *setter) add(col, start, numAt, number int) {
	s.cells = append(s.cells, cell{
		start: start, end: len(s.buf), width: utf8.RuneCount(s.buf[start:]),
		col: col, numAt: numAt, number: number,
	})
}
