// Package source holds a file's text and is the one place where byte offsets
// become lines and columns. A byte offset is the truth everywhere else.
package source

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Span is a half-open range of byte offsets, [Start, End), in one file's text.
type Span struct{ Start, End int }

// Len is the number of bytes in the span.
func (s Span) Len() int { return s.End - s.Start }

// Contains reports whether the offset lies in the span, its end included.
func (s Span) Contains(offset int) bool { return s.Start <= offset && offset <= s.End }

// Join is the smallest span that holds both.
func (s Span) Join(t Span) Span {
	return Span{Start: min(s.Start, t.Start), End: max(s.End, t.End)}
}

// File is one text with a name to show. It never changes after New.
type File struct {
	Name  string // as shown in findings: relative, with slashes
	Text  string
	lines []int // the offset at which each line starts
}

// New makes a file of a text. It keeps the text as it is, bad UTF-8 included.
func New(name, text string) *File {
	f := &File{Name: name, Text: text, lines: make([]int, 1, 1+strings.Count(text, "\n"))}
	for i := 0; i < len(text); i++ {
		if text[i] == '\n' {
			f.lines = append(f.lines, i+1)
		}
	}
	return f
}

// Position is a line and a column, both from 1; the column counts bytes.
type Position struct{ Line, Column int }

// Position is where an offset lies. Offsets outside the text are clamped.
func (f *File) Position(offset int) Position {
	offset = min(max(offset, 0), len(f.Text))
	line := sort.SearchInts(f.lines, offset+1)
	return Position{Line: line, Column: offset - f.lines[line-1] + 1}
}

// Offset is the inverse of Position, clamped to the text and to the line.
func (f *File) Offset(p Position) int {
	if p.Line < 1 {
		return 0
	}
	if p.Line > len(f.lines) {
		return len(f.Text)
	}
	start := f.lines[p.Line-1]
	return min(start+max(p.Column-1, 0), f.lineEnd(p.Line))
}

// Lines is the number of lines; a text that ends in a newline has an empty
// last one.
func (f *File) Lines() int { return len(f.lines) }

// Line is the text of a line (from 1) without its line break.
func (f *File) Line(line int) string {
	if line < 1 || line > len(f.lines) {
		return ""
	}
	return strings.TrimSuffix(f.Text[f.lines[line-1]:f.lineEnd(line)], "\r")
}

// LineStart is the offset of a line's first byte.
func (f *File) LineStart(line int) int {
	return f.lines[min(max(line, 1), len(f.lines))-1]
}

func (f *File) lineEnd(line int) int {
	if line < len(f.lines) {
		return f.lines[line] - 1
	}
	return len(f.Text)
}

// Slice is the text of a span, clamped to the file.
func (f *File) Slice(s Span) string {
	start := min(max(s.Start, 0), len(f.Text))
	return f.Text[start:min(max(s.End, start), len(f.Text))]
}

// UTF16Column is an offset's column from 0 in UTF-16 code units, as the
// Language Server Protocol counts by default.
func (f *File) UTF16Column(offset int) int {
	p := f.Position(offset)
	start, units := f.LineStart(p.Line), 0
	for _, r := range f.Text[start:min(max(offset, start), len(f.Text))] {
		units++
		if r >= 0x10000 {
			units++
		}
	}
	return units
}

// OffsetUTF16 is the inverse of UTF16Column: line from 1, column from 0.
func (f *File) OffsetUTF16(line, column int) int {
	if line > len(f.lines) {
		return len(f.Text)
	}
	at, end := f.LineStart(line), f.lineEnd(max(line, 1))
	for column > 0 && at < end {
		r, size := utf8.DecodeRuneInString(f.Text[at:end])
		if column--; r >= 0x10000 {
			column--
		}
		at += size
	}
	return at
}
