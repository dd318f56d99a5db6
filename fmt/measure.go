package format

import "unicode/utf8"

// measure finds the blocks that are set on lines of their own: those that the
// author wrote so, and those too wide for one line.
func (s *setter) measure(nodes []node) {
	for i := range nodes {
		n := &nodes[i]
		if n.raw || n.open == none {
			continue
		}
		empty := len(n.kids) == 0 && n.openTrail == none
		n.tall = !empty && (!n.lined || s.contentWidth(n) > textWidth)
		s.measure(n.kids)
	}
}

// contentWidth is the width of what stands between a block's braces.
func (s *setter) contentWidth(n *node) int {
	width := 0
	for i := range n.kids {
		if i > 0 {
			width += len("; ")
		}
		width += s.oneLineWidth(&n.kids[i])
	}
	return width
}

func (s *setter) oneLineWidth(n *node) int {
	s.buf = s.appendOneLine(s.buf[:0], n)
	return utf8.RuneCount(s.buf)
}
