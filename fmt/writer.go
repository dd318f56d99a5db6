package format

import (
	"bytes"
	"unicode/utf8"
)

const blankLine = "                                                                "

func (s *setter) blanks(n int) {
	for ; n > len(blankLine); n -= len(blankLine) {
		s.out = append(s.out, blankLine...)
	}
	s.out = append(s.out, blankLine[:max(n, 0)]...)
}

func (s *setter) indent(n int) { s.blanks(n) }

// tail is a comment that comes behind a line.
type tail struct {
	at, width int // the line's end in out, and its width
	line      int
	comment   int
	parted    bool // it is set for itself
}

// parted sets the comment of a line just ended for itself, if there is one: a
// line with a block's brace is no row among others.
func (s *setter) parted() {
	if last := len(s.tails) - 1; last >= 0 && s.tails[last].line == s.number-1 {
		s.tails[last].parted = true
	}
}

// endLine ends the line being written, with the comment behind it. A line that
// ends in a CR ends in CRLF, since a LF alone would swallow the CR.
func (s *setter) endLine(comment int) {
	s.ended = len(s.out)
	if comment != none {
		width := utf8.RuneCount(s.out[bytes.LastIndexByte(s.out, '\n')+1:])
		s.tails = append(s.tails, tail{at: len(s.out), width: width, line: s.number, comment: comment})
	} else if len(s.out) > 0 && s.out[len(s.out)-1] == '\r' {
		s.out = append(s.out, '\r')
	}
	s.out = append(s.out, '\n')
	s.number++
}

// finish puts the comments behind their lines, those of lines that follow each
// other in one column.
func (s *setter) finish() string {
	if len(s.tails) == 0 {
		return string(s.out)
	}
	lines, done := s.out, 0
	s.out = make([]byte, 0, len(lines)+len(lines)/4)
	for rest := s.tails; len(rest) > 0; {
		n := 1
		for n < len(rest) && rest[n].line == rest[n-1].line+1 && !rest[n].parted && !rest[n-1].parted {
			n++
		}
		column := commentColumn(rest[:n])
		for _, t := range rest[:n] {
			s.out = append(s.out, lines[done:t.at]...)
			s.blanks(max(column, t.width+tailGap) - t.width)
			s.out = append(s.out, s.cut.comment(t.comment)...)
			done = t.at
		}
		rest = rest[n:]
	}
	return string(append(s.out, lines[done:]...))
}

// commentColumn is where the comments of neighbouring lines stand. A line that
// is far longer than the shortest does not push the others away.
func commentColumn(tails []tail) int {
	least := tails[0].width
	for _, t := range tails {
		least = min(least, t.width)
	}
	column := 0
	for _, t := range tails {
		if t.width <= 2*least+commonWidth {
			column = max(column, t.width+tailGap)
		}
	}
	return column
}
