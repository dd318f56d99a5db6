package format

// blockGroup is a run of one-line blocks whose settings share columns: those of
// the longest have the keys of all others, in the same order.
type blockGroup struct {
	longest *node
	opens   int // the column of the opening brace; settings follow at first
	first   int
}

// blockCells adds the cells of a node's block, or the brace that opens it.
func (s *setter) blockCells(n *node, col int) {
	switch {
	case n.open == none:
		return
	case n.tall:
		s.literal(col, "{")
		return
	case len(n.kids) == 0:
		s.literal(col, "{}")
		return
	}
	s.join(n, col)
	for i := range n.kids {
		s.kidCell(n, i)
	}
}

func (s *setter) literal(col int, text string) {
	start := len(s.buf)
	s.buf = append(s.buf, text...)
	s.add(col, start, 0, 0)
}

// join finds the columns that a block's settings stand in.
func (s *setter) join(n *node, col int) {
	g := &s.block
	if g.longest == nil || g.opens != col || !s.alike(g.longest, n) {
		*g = blockGroup{longest: n, opens: col, first: len(s.cols)}
		s.cols = append(s.cols, column{prev: col, gap: s.cols[col].gap, loose: true})
	}
	if len(n.kids) > len(g.longest.kids) {
		g.longest = n
	}
	for len(s.cols) < g.first+len(n.kids) {
		s.cols = append(s.cols, column{prev: len(s.cols) - 1, gap: 1, loose: true})
	}
}

// alike reports whether the settings of one block are the first of the other's.
func (s *setter) alike(a, b *node) bool {
	for i := range min(len(a.kids), len(b.kids)) {
		if a.kids[i].raw || b.kids[i].raw || s.tok(a.kids[i].first) != s.tok(b.kids[i].first) {
			return false
		}
	}
	return true
}

// kidCell adds the cell of one setting of a one-line block.
func (s *setter) kidCell(n *node, i int) {
	kid, start := &n.kids[i], len(s.buf)
	if i == 0 {
		s.buf = append(s.buf, "{ "...)
	}
	numAt, number := len(s.buf)-start+s.toks[kid.first].Len()+1, 0
	if !kid.raw {
		number = s.numberWidth(kid.first+1, kid.last+1)
	}
	s.buf = s.appendOneLine(s.buf, kid)
	if i < len(n.kids)-1 {
		s.buf = append(s.buf, ';')
	} else {
		s.buf = append(s.buf, " }"...)
	}
	s.add(s.block.first+i, start, numAt, number)
}

// appendOneLine adds a statement with its block on one line.
func (s *setter) appendOneLine(out []byte, n *node) []byte {
	if n.raw {
		return s.appendRaw(out, n)
	}
	out = s.appendTokens(out, n.first, n.last)
	if n.open == none {
		return out
	}
	return s.appendBlock(append(out, ' '), n)
}

// appendBlock adds a node's block on one line, or the brace that opens it.
func (s *setter) appendBlock(out []byte, n *node) []byte {
	switch {
	case n.tall:
		return append(out, '{')
	case len(n.kids) == 0:
		return append(out, "{}"...)
	}
	out = append(out, "{ "...)
	for i := range n.kids {
		if i > 0 {
			out = append(out, "; "...)
		}
		out = s.appendOneLine(out, &n.kids[i])
	}
	return append(out, " }"...)
}
