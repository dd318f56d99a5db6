package core

import (
	"hame/lang/source"
	"hame/lang/syntax"
)

// Fold is lines that can be folded away, and whether they are a comment.
type Fold struct {
	FromLine, ToLine int // from 0
	Comment          bool
}

// Folds lists the blocks and the comments of a file that have several lines.
func Folds(f *File) []Fold {
	var list []Fold
	lines := f.Lines()
	add := func(s source.Span, comment bool) {
		from, to := lines.LineOf(s.Start), lines.LineOf(max(s.Start, s.End-1))
		if !comment {
			to-- // the closing brace stays in sight
		}
		if to > from {
			list = append(list, Fold{from, to, comment})
		}
	}
	for _, d := range f.Tree().Decls {
		block := d.Header().Block
		if block != nil {
			add(block.Span, false)
		}
		block.Walk(func(s *syntax.Setting) {
			if s.Block != nil {
				add(s.Block.Span, false)
			}
		})
	}
	for _, s := range commentRuns(f) {
		add(s, true)
	}
	return list
}

// commentRuns lists comments that stand alone on lines one after another.
func commentRuns(f *File) []source.Span {
	var runs []source.Span
	last := -2
	for _, c := range f.Tree().Comments {
		if !c.Alone {
			continue
		}
		line := f.Lines().LineOf(c.Start)
		if line == last+1 && len(runs) > 0 {
			runs[len(runs)-1].End = c.End
		} else {
			runs = append(runs, c.Span)
		}
		last = line
	}
	return runs
}

// Selections lists the spans that hold an offset, the smallest first: word,
// value, setting, block, declaration, file.
func Selections(f *File, offset int) []source.Span {
	tree := f.Tree()
	list := []source.Span{{Start: 0, End: len(f.Text)}}
	if d := tree.DeclAt(offset); d != nil {
		h := d.Header()
		list = append(list, h.Span)
		list = append(list, inBlock(h.Block, offset)...)
	}
	if t, ok := tokenTouching(f, offset); ok && t.Len() > 0 {
		list = append(list, t.Span)
	}
	return nested(list)
}

// inBlock lists a block, its setting and that one's value, from outside in.
func inBlock(b *syntax.Block, offset int) []source.Span {
	if b == nil || !b.Contains(offset) {
		return nil
	}
	list := []source.Span{b.Span}
	for _, s := range b.Settings {
		if !s.Contains(offset) {
			continue
		}
		list = append(list, s.Span)
		for _, v := range s.Values {
			if v.Contains(offset) {
				list = append(list, v.Span)
				break
			}
		}
		return append(list, inBlock(s.Block, offset)...)
	}
	return list
}

// nested turns spans around and drops those that do not hold the one before.
func nested(outer []source.Span) []source.Span {
	var list []source.Span
	for i := len(outer) - 1; i >= 0; i-- {
		s := outer[i]
		if n := len(list); n > 0 && (s == list[n-1] || s.Start > list[n-1].Start || s.End < list[n-1].End) {
			continue
		}
		list = append(list, s)
	}
	return list
}
