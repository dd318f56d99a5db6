package syntax

import (
	"sort"
	"strings"

	"hame/lang/token"
)

// doc is the comment lines directly above the token, without their #.
func (r *reader) doc(i int) string {
	if !r.startsLine(i) {
		return ""
	}
	comments, line := r.out.Comments, r.src.Position(r.toks[i].Start).Line
	last := sort.Search(len(comments), func(c int) bool { return comments[c].Start > r.toks[i].Start })
	first := last
	for first > 0 && comments[first-1].Alone && r.src.Position(comments[first-1].Start).Line == line-1 {
		first, line = first-1, line-1
	}
	lines := make([]string, 0, last-first)
	for _, c := range comments[first:last] {
		text := strings.TrimPrefix(r.text[c.Start:c.End], "#")
		lines = append(lines, strings.TrimRight(strings.TrimPrefix(text, " "), " \t"))
	}
	return strings.Join(lines, "\n")
}

// TokenText is a token as it stands in the text.
func (f *File) TokenText(t token.Token) string { return f.Source.Slice(t.Span) }

// DeclAt is the declaration that an offset lies in, its end included; nil
// between declarations.
func (f *File) DeclAt(offset int) Decl {
	after := sort.Search(len(f.Decls), func(i int) bool { return f.Decls[i].Header().Start > offset })
	if after == 0 || !f.Decls[after-1].Header().Contains(offset) {
		return nil
	}
	return f.Decls[after-1]
}

// TokenAt is the index of the last token that starts at the offset or before
// it, 0 where there is none.
func (f *File) TokenAt(offset int) int {
	after := sort.Search(len(f.Tokens), func(i int) bool { return f.Tokens[i].Start > offset })
	return max(after-1, 0)
}

// SettingAt is the innermost setting that an offset lies in, and the block that
// holds it; nil where there is none.
func (b *Block) SettingAt(offset int) (*Setting, *Block) {
	if b == nil {
		return nil, nil
	}
	for _, s := range b.Settings {
		if !s.Contains(offset) {
			continue
		}
		if inner, holder := s.Block.SettingAt(offset); inner != nil {
			return inner, holder
		}
		return s, b
	}
	return nil, nil
}

// First is the block's first setting of a key, nil where there is none. It may
// be asked of no block.
func (b *Block) First(key string) *Setting {
	for s := range b.Each(key) {
		return s
	}
	return nil
}

// Each gives the block's settings of a key, in order.
func (b *Block) Each(key string) func(yield func(*Setting) bool) {
	return func(yield func(*Setting) bool) {
		if b == nil {
			return
		}
		for _, s := range b.Settings {
			if s.Key.Text == key && !yield(s) {
				return
			}
		}
	}
}

// Walk calls visit for every setting of a block, those of inner blocks after
// the setting that holds them. It may be asked of no block.
func (b *Block) Walk(visit func(*Setting)) {
	if b == nil {
		return
	}
	for _, s := range b.Settings {
		visit(s)
		s.Block.Walk(visit)
	}
}
