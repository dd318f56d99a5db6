// Package text keeps texts in step with an editor. Editors count lines and
// characters in their own way; everywhere else a byte offset is the truth, and
// this package is the one place where the two meet.
package text

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Encoding is the unit in which characters of a line are counted.
type Encoding uint8

// The encodings of the Language Server Protocol 3.17. UTF-16 is what is used
// where nothing was agreed on.
const (
	UTF16 Encoding = iota
	UTF8
	UTF32
)

// Point is a line and a character in it, both from 0.
type Point struct{ Line, Char int }

// Lines knows where the lines of a text start. A line ends with \n, \r\n or \r
// (LSP 3.17, "Text Documents").
type Lines struct {
	text   string
	starts []int
}

// NewLines looks for the lines of a text.
func NewLines(text string) *Lines {
	l := &Lines{text: text, starts: make([]int, 1, strings.Count(text, "\n")+2)}
	for at := 0; ; at = l.starts[len(l.starts)-1] {
		line := strings.IndexByte(text[at:], '\n')
		end := at + line
		if line < 0 {
			end = len(text)
		}
		l.returns(at, end)
		if line < 0 {
			return l
		}
		l.starts = append(l.starts, end+1)
	}
}

// returns looks for \r that end a line by themselves in what comes before a \n or
// the text's end.
func (l *Lines) returns(at, end int) {
	for {
		i := strings.IndexByte(l.text[at:end], '\r')
		if i < 0 || at+i+1 == end && end < len(l.text) {
			return
		}
		at += i + 1
		l.starts = append(l.starts, at)
	}
}

// Count is the number of lines; a text that ends with a line break has an empty
// last one.
func (l *Lines) Count() int { return len(l.starts) }

// Start is the offset of a line's first byte.
func (l *Lines) Start(line int) int { return l.starts[min(max(line, 0), len(l.starts)-1)] }

// End is the offset of a line's break, or the text's end.
func (l *Lines) End(line int) int {
	if line+1 >= len(l.starts) {
		return len(l.text)
	}
	end := l.starts[line+1] - 1
	if end > l.starts[line] && l.text[end] == '\n' && l.text[end-1] == '\r' {
		end--
	}
	return end
}

// LineOf is the line that an offset lies in.
func (l *Lines) LineOf(offset int) int { return sort.SearchInts(l.starts, offset+1) - 1 }

// Point is where an offset lies. Offsets outside the text are clamped, as are
// those between \r and \n.
func (l *Lines) Point(offset int, e Encoding) Point {
	offset = min(max(offset, 0), len(l.text))
	line := l.LineOf(offset)
	return Point{Line: line, Char: units(l.text[l.starts[line]:min(offset, l.End(line))], e)}
}

// Offset is the inverse of Point, clamped to the text and to the line. A
// character within one of two units is that character's start.
func (l *Lines) Offset(p Point, e Encoding) int {
	if p.Line < 0 {
		return 0
	}
	if p.Line >= len(l.starts) {
		return len(l.text)
	}
	at, end := l.starts[p.Line], l.End(p.Line)
	if e == UTF8 {
		return l.runeStart(at, min(at+max(p.Char, 0), end))
	}
	for left := p.Char; left > 0 && at < end; {
		r, size := utf8.DecodeRuneInString(l.text[at:end])
		if left -= width(r, e); left < 0 {
			break
		}
		at += size
	}
	return at
}

// runeStart moves an offset that lies within a character to its start.
func (l *Lines) runeStart(start, at int) int {
	for back := at; back > start && back > at-utf8.UTFMax && back < len(l.text); back-- {
		if utf8.RuneStart(l.text[back]) {
			if _, size := utf8.DecodeRuneInString(l.text[back:]); back+size > at {
				return back
			}
			break
		}
	}
	return at
}

func width(r rune, e Encoding) int {
	if e == UTF16 && r >= 0x10000 {
		return 2
	}
	return 1
}

func units(s string, e Encoding) int {
	if e == UTF8 {
		return len(s)
	}
	n := 0
	for _, r := range s {
		n += width(r, e)
	}
	return n
}

// Change replaces what stands between two points, or the whole text.
type Change struct {
	Whole    bool
	From, To Point
	Text     string
}

// Apply makes changes one after another, each in the text that the one before
// has left.
func Apply(l *Lines, changes []Change, e Encoding) string {
	text := l.text
	for i, c := range changes {
		if i > 0 {
			l = NewLines(text)
		}
		if c.Whole {
			text = c.Text
			continue
		}
		from, to := l.Offset(c.From, e), l.Offset(c.To, e)
		if to < from {
			from, to = to, from
		}
		text = text[:from] + c.Text + text[to:]
	}
	return text
}
