package format

import "slices"

// cell is one text of a row. The number that it holds, if any, starts at numAt
// and is set flush right in its column.
type cell struct {
	start, end    int // in the setter's buffer
	width         int // in characters
	col           int
	numAt, number int // offset of the number in the cell, and its width or 0
}

// column is where cells of several rows stand below each other. It starts where
// the column prev ends, a gap behind.
type column struct {
	prev, gap    int
	start, width int
	number       int  // width of the widest number
	loose        bool // the last cell of a row does not widen the column
	from, to     int  // the lines that it has cells in lie between these
}

const (
	commonWidth = 24 // a cell of up to this may always widen its column
	numberWidth = 12 // and a number of up to this
)

// line is a row's cells and what they belong to.
type line struct {
	*node
	lo, hi int // its cells
}

// settle finds each column's width and start.
func (s *setter) settle() {
	for _, c := range s.cells {
		if c.number <= numberWidth {
			s.cols[c.col].number = max(s.cols[c.col].number, c.number)
		}
	}
	for at, l := range s.lines {
		for i := l.lo; i < l.hi; i++ {
			if col := &s.cols[s.cells[i].col]; i < l.hi-1 || !col.loose {
				if col.width == 0 {
					col.from = at
				}
				col.width, col.to = max(col.width, s.widthOf(i)), at+1
			}
		}
	}
	for i := range s.cols {
		s.place(i)
	}
}

func (s *setter) place(i int) {
	col := &s.cols[i]
	if col.width > commonWidth {
		col.width = s.commonWidth(i)
	}
	if col.prev == none {
		return
	}
	prev := s.cols[col.prev]
	if col.start = prev.start; prev.width > 0 {
		col.start += prev.width + col.gap
	}
}

// widthOf is a cell's width with its number set flush right.
func (s *setter) widthOf(i int) int {
	c := s.cells[i]
	if c.number == 0 {
		return c.width
	}
	return c.width + max(s.cols[c.col].number-c.number, 0)
}

// commonWidth is a column's width without the cells that are far longer than
// most: those run over, and their rows alone are pushed on.
func (s *setter) commonWidth(col int) int {
	var widths []int
	for _, l := range s.lines[s.cols[col].from:s.cols[col].to] {
		for i := l.lo; i < l.hi; i++ {
			if s.cells[i].col == col && (i < l.hi-1 || !s.cols[col].loose) {
				widths = append(widths, s.widthOf(i))
			}
		}
	}
	slices.Sort(widths)
	limit, width := max(commonWidth, 2*widths[len(widths)/2]), 0
	for _, w := range widths {
		if w <= limit {
			width = w
		}
	}
	return width
}

// write sets a row's cells, each in its column or, where the one before runs
// over, a gap behind it.
func (s *setter) write(l line, indent int) {
	at := 0
	s.indent(indent)
	for i := l.lo; i < l.hi; i++ {
		c := &s.cells[i]
		col := s.cols[c.col]
		if i > l.lo {
			target := max(col.start, at+col.gap)
			s.blanks(target - at)
			at = target
		}
		split := c.start
		if c.number > 0 {
			split += c.numAt
			s.out = append(s.out, s.buf[c.start:split]...)
			s.blanks(col.number - c.number)
		}
		s.out = append(s.out, s.buf[split:c.end]...)
		at += s.widthOf(i)
	}
}
