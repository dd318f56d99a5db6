package format

import "sort"

// lineEnd is the last token on the first line of a header that goes on.
func (s *setter) lineEnd(n *node) int {
	for i := n.first; i < n.last; i++ {
		if s.lineEnds(i, i+1) {
			return i
		}
	}
	return n.last
}

// goOn writes the lines behind the first of a header that goes on, and its
// block if that stands on one line. The values of a setting stand in their
// column.
func (s *setter) goOn(l line, indent int) {
	n := l.node
	if !n.goesOn || n.raw {
		return
	}
	indent += overStep
	if n.form == setting && l.hi-l.lo > 1 {
		indent += s.cols[1].start - overStep
	}
	for last := s.lineEnd(n); last < n.last; {
		first := last + 1
		s.commentsBetween(last, first, indent)
		for last = first; last < n.last && !s.lineEnds(last, last+1); last++ {
		}
		s.indent(indent)
		s.out = s.appendTokens(s.out, first, last)
	}
	if n.open != none {
		s.out = s.appendBlock(append(s.out, ' '), n)
	}
}

// commentsBetween ends the line behind a token with the comments that stand
// there: behind it, and on lines of their own.
func (s *setter) commentsBetween(i, next, indent int) {
	c := sort.Search(len(s.comments), func(c int) bool { return s.comments[c].Start >= s.toks[i].End })
	tail := none
	if c < len(s.comments) && s.comments[c].Start < s.toks[next].Start && newlines(s.text[s.toks[i].End:s.comments[c].Start]) == 0 {
		tail = c
		c++
	}
	s.endLine(tail)
	for ; c < len(s.comments) && s.comments[c].Start < s.toks[next].Start; c++ {
		s.indent(indent)
		s.out = append(s.out, s.cut.comment(c)...)
		s.endLine(none)
	}
}
