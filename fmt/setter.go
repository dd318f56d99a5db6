package format

import (
	"unicode/utf8"

	"hame/lang/quantity"
	"hame/lang/token"
)

const (
	step      = 4   // blanks of indentation
	overStep  = 8   // of what goes on over a line's end
	textWidth = 100 // of what stands between the braces of a one-line block
	tailGap   = 4   // between a line and the comment behind it
)

// setter sets nodes as text.
type setter struct {
	*cut
	out    []byte
	number int    // of the line being written
	ended  int    // where the line before ended in out
	tails  []tail // comments behind lines, put in at the end

	// the section being set
	buf   []byte
	cells []cell
	cols  []column
	lines []line
	block blockGroup
	keyed []keyedGroup
}

// lay gives the text of the nodes.
func lay(c *cut, top []node) string {
	s := &setter{cut: c, out: make([]byte, 0, len(c.text)+len(c.text)/4)}
	s.out = append(s.out, marked(c.text)...)
	s.measure(top)
	s.list(top, 0)
	return s.finish()
}

// list sets the nodes of a file or of a block, section by section.
func (s *setter) list(nodes []node, indent int) {
	for last := none; len(nodes) > 0; {
		n := sectionEnd(nodes)
		if nodes[0].blank {
			s.endLine(none)
		}
		if nodes[0].glued {
			s.glue(last, nodes[0].first)
		}
		s.section(nodes[:n], indent)
		last, nodes = nodes[n-1].end(), nodes[n:]
	}
}

// sectionEnd is how many nodes are set together: statements of one table with
// the comments among them. An empty line or a block of several lines ends it.
func sectionEnd(nodes []node) int {
	table, started := unknown, false
	for i := range nodes {
		n := &nodes[i]
		switch {
		case i > 0 && (n.blank || n.glued):
			return i
		case n.comment != none:
			continue
		case started && (table == unknown || n.table() != table || n.tall && table != setting):
			return i
		}
		if table, started = n.table(), true; n.tall {
			return i + 1
		}
	}
	return len(nodes)
}

// table is the form whose rows the node stands among, unknown for none.
func (n *node) table() form {
	switch {
	case n.form == setting:
		return setting
	case n.raw || n.goesOn:
		return unknown
	}
	return n.form.table()
}

// section sets nodes that share columns.
func (s *setter) section(nodes []node, indent int) {
	s.buf, s.cells, s.cols, s.lines = s.buf[:0], s.cells[:0], s.cols[:0], s.lines[:0]
	s.block, s.keyed = blockGroup{}, s.keyed[:0]
	for i := range nodes {
		l := line{node: &nodes[i], lo: len(s.cells)}
		if l.comment == none {
			s.row(l.node)
		}
		l.hi = len(s.cells)
		s.lines = append(s.lines, l)
	}
	s.settle()
	lines := s.lines
	for _, l := range lines {
		s.line(l, indent)
	}
}

// line writes a node, the lines of its block included. A node with a block of
// several lines is its section's last, so the section's columns are done with.
func (s *setter) line(l line, indent int) {
	n := l.node
	indent += n.indent
	switch {
	case n.comment != none:
		s.indent(indent)
		s.out = append(s.out, s.cut.comment(n.comment)...)
		s.endLine(none)
		return
	case n.raw && n.form != setting:
		s.rawLine(n)
	default:
		s.write(l, indent)
		s.goOn(l, indent)
	}
	if n.tall {
		s.endLine(n.openTrail)
		s.parted()
		s.list(n.kids, indent+step)
		s.indent(indent)
		s.out = append(s.out, '}')
	}
	s.endLine(n.trail)
	if n.tall {
		s.parted()
	}
}

// glue takes back the end of the line before and goes on there with what stands
// between two tokens.
func (s *setter) glue(from, to int) {
	s.out = s.out[:s.ended]
	s.number--
	s.out = append(s.out, s.text[s.toks[from].End:s.toks[to].Start]...)
}

// rawLine writes a declaration with a mistake, with the blanks before it: the
// parser tells by columns where it ends.
func (s *setter) rawLine(n *node) {
	start := s.toks[n.first].Start
	if !n.glued {
		s.out = append(s.out, s.text[s.indentStart(start):start]...)
	}
	s.out = s.appendRaw(s.out, n)
}

// appendRaw adds a node as it stands in the text, with LF line ends. A CR
// before a CRLF stays, since it is no part of the line's end.
func (s *setter) appendRaw(out []byte, n *node) []byte {
	text := s.text[s.toks[n.first].Start:s.toks[n.end()].End]
	for i := range len(text) {
		if text[i] == '\r' && i+1 < len(text) && text[i+1] == '\n' && (i == 0 || text[i-1] != '\r') {
			continue
		}
		out = append(out, text[i])
	}
	return out
}

// appendTokens adds the tokens from..to with the blanks between them.
func (s *setter) appendTokens(out []byte, from, to int) []byte {
	for i := from; i <= to; i++ {
		if i > from && s.apart(i) {
			out = append(out, ' ')
		}
		out = append(out, s.spelled(i)...)
	}
	return out
}

// apart reports whether a blank stands before a token in its statement.
func (s *setter) apart(i int) bool {
	before, k := s.kind(i-1), s.kind(i)
	return k != token.Comma && k != token.Slash && k != token.DotDot && before != token.Slash && before != token.DotDot
}

// spelled is a token's text, a unit in its ASCII spelling.
func (s *setter) spelled(i int) string {
	text := s.tok(i)
	if !ascii(text) && i > 0 && s.kind(i) == token.Word && s.kind(i-1) == token.Number {
		text, _ = quantity.Canonical(text)
	}
	return text
}

func ascii(text string) bool {
	return text[0] < utf8.RuneSelf && text[len(text)-1] < utf8.RuneSelf
}
