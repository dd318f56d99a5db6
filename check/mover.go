package check

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/syntax"
)

// mover brings places of one text to where they stand in the next, which an edit
// has made of it.
type mover struct {
	root  *source.File // of the text before
	files map[*source.File]*source.File
	head  int // bytes that are the same at the start
	tail  int // where in the text before begins what is the same at the end
	by    int // how far that has moved
	braces,
	lost bool // braces: among the changed bytes; lost: a place was not to be found
}

func newMover(was, now *Run) *mover {
	m := &mover{root: was.Files[0], files: map[*source.File]*source.File{}}
	before, after := was.Files[0].Text, now.Files[0].Text
	head, tail := syntax.Alike(before, after)
	m.head, m.tail, m.by = head, len(before)-tail, len(after)-len(before)
	m.braces = strings.Contains(before[head:m.tail], "{") || strings.Contains(after[head:len(after)-tail], "{")
	for i, f := range was.Files {
		m.files[f] = now.Files[i]
	}
	return m
}

// span is where a span of the root file stands now; false where one of its ends
// is among the changed bytes.
func (m *mover) span(s source.Span) (source.Span, bool) {
	empty := s.Start == s.End
	switch {
	case s.Start < m.head:
	case s.Start >= m.tail && (!empty || s.Start > m.tail):
		s.Start += m.by
	default:
		return s, false
	}
	switch {
	case s.End <= m.head && (!empty || s.End < m.head):
	case s.End > m.tail:
		s.End += m.by
	default:
		return s, false
	}
	return s, true
}

// place is where a place stands now.
func (m *mover) place(p finding.Place) finding.Place {
	if p.File == nil {
		return p
	}
	ok := true
	if p.File == m.root {
		p.Span, ok = m.span(p.Span)
	}
	file, known := m.files[p.File]
	m.lost = m.lost || !ok || !known
	p.File = file
	return p
}

// findings are findings with all their places moved.
func (m *mover) findings(list []finding.Finding) []finding.Finding {
	moved := make([]finding.Finding, len(list))
	for i, f := range list {
		f.At = m.place(f.At)
		f.Related = m.related(f.Related)
		f.Fix = m.fix(f.Fix)
		moved[i] = f
	}
	return moved
}

func (m *mover) related(list []finding.Related) []finding.Related {
	var moved []finding.Related
	for _, r := range list {
		r.Place = m.place(r.Place)
		moved = append(moved, r)
	}
	return moved
}

func (m *mover) fix(f *finding.Fix) *finding.Fix {
	if f == nil {
		return nil
	}
	moved := &finding.Fix{Title: f.Title}
	for _, e := range f.Edits {
		e.Place = m.place(e.Place)
		moved.Edits = append(moved.Edits, e)
	}
	return moved
}
