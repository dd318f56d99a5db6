package core

import (
	"slices"
	"strings"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

// place is where an author stands: in which block, behind which words of a
// statement, within which word.
type place struct {
	header []string    // of the declaration whose block it is, nil outside of any
	inner  string      // the setting whose own block it is, "" mostly
	words  []string    // of the statement before the word, one a value
	given  []string    // keys of the block's other settings
	prefix string      // of the word, up to the offset
	span   source.Span // of the whole word
	quote  bool        // the word is a text in quotes
}

// placeAt finds out where an offset stands. It goes by tokens, for a text that
// is being written has no tree yet. It is nil within a comment.
func placeAt(f *File, offset int) *place {
	if inComment(f, offset) {
		return nil
	}
	tree := f.Tree()
	p := &place{}
	p.word(f, offset)
	w := &walker{tree: tree}
	for i, t := range tree.Tokens {
		if t.End > p.span.Start || t.Kind == token.EOF {
			break
		}
		w.step(i)
	}
	p.words = values(tree, tree.Tokens[w.start:max(w.start, w.at)])
	if depth := len(w.headers); depth > 0 {
		p.header = values(tree, w.headers[0])
		if depth > 1 && len(w.headers[1]) > 0 {
			p.inner = tree.TokenText(w.headers[1][0])
		}
		p.given = givenKeys(tree, p.span.Start)
	}
	return p
}

// wordByte reports the bytes of names, terminals and rules.
func wordByte(c byte) bool {
	return c == '_' || c == '-' || c == '.' || c == '/' || c >= '0' && c <= '9' || c|0x20 >= 'a' && c|0x20 <= 'z'
}

// word finds the word that the offset stands in.
func (p *place) word(f *File, offset int) {
	if t, ok := tokenTouching(f, offset); ok && strings.HasPrefix(f.Slice(t.Span), `"`) && offset > t.Start {
		p.quote, p.span = true, source.Span{Start: t.Start + 1, End: offset}
		if end := strings.IndexAny(f.Text[offset:t.End], "\"\r\n"); end >= 0 {
			p.span.End = offset + end
		}
		p.prefix = f.Text[t.Start+1 : offset]
		return
	}
	start, end := offset, offset
	for start > 0 && wordByte(f.Text[start-1]) {
		start--
	}
	for end < len(f.Text) && wordByte(f.Text[end]) {
		end++
	}
	if strings.HasPrefix(f.Text[start:], "->") || strings.HasPrefix(f.Text[start:end], "-") {
		start = offset
	}
	p.span, p.prefix = source.Span{Start: start, End: end}, f.Text[start:offset]
}

// walker goes over tokens and knows which blocks are open.
type walker struct {
	tree    *syntax.File
	start   int // where the statement starts
	at      int // behind the last token
	headers [][]token.Token
	columns []int
}

func (w *walker) step(i int) {
	t := w.tree.Tokens[i]
	w.at = i + 1
	switch t.Kind {
	case token.Newline, token.Semicolon:
		w.start = i + 1
	case token.LBrace:
		w.headers = append(w.headers, w.tree.Tokens[w.start:i])
		w.columns = append(w.columns, w.columnOf(w.start))
		w.start = i + 1
	case token.RBrace:
		if n := len(w.headers); n > 0 {
			w.headers, w.columns = w.headers[:n-1], w.columns[:n-1]
		}
		w.start = i + 1
	case token.Word:
		if i == w.start && len(w.headers) > 0 && w.escapes(i) {
			w.headers, w.columns = nil, nil
		}
	}
}

func (w *walker) columnOf(i int) int {
	if i >= len(w.tree.Tokens) {
		return 0
	}
	return w.tree.Source.Position(w.tree.Tokens[i].Start).Column
}

// escapes: a declaration's keyword that stands as far left as the open block's
// own tells that a brace is missing.
func (w *walker) escapes(i int) bool {
	word := w.tree.TokenText(w.tree.Tokens[i])
	return syntax.FormLine(word) != "" && w.columnOf(i) <= w.columns[0] &&
		(i == 0 || w.tree.Tokens[i-1].Kind == token.Newline)
}

// values puts tokens together as values are: a number and its unit are one.
func values(tree *syntax.File, tokens []token.Token) []string {
	var list []string
	for i := 0; i < len(tokens); {
		n := valueLen(tree, tokens[i:])
		list = append(list, tree.Source.Slice(source.Span{Start: tokens[i].Start, End: tokens[i+n-1].End}))
		i += n
	}
	return list
}

// valueLen is how many tokens one value has.
func valueLen(tree *syntax.File, t []token.Token) int {
	n := 1
	if t[0].Kind == token.Number {
		n += unitLen(tree, t[n:])
		if len(t) > n+1 && t[n].Kind == token.DotDot && t[n+1].Kind == token.Number {
			n += 2
			n += unitLen(tree, t[n:])
		}
		return n
	}
	if len(t) > 2 && t[0].Kind == token.Word && t[1].Kind == token.Slash && t[2].Kind == token.Word {
		return 3
	}
	return n
}

func unitLen(tree *syntax.File, t []token.Token) int {
	n := 0
	if len(t) > 1 && t[0].Kind == token.Slash && t[1].Kind == token.Number {
		n = 2
	}
	if len(t) > n && (t[n].Kind == token.Percent || t[n].Kind == token.Word && quantity.Known(tree.TokenText(t[n]))) {
		n++
	}
	return n
}

// givenKeys lists the settings of the block around an offset.
func givenKeys(tree *syntax.File, offset int) []string {
	d := tree.DeclAt(offset)
	if d == nil || d.Header().Block == nil {
		return nil
	}
	block := d.Header().Block
	if in, _ := block.SettingAt(offset); in != nil && in.Block != nil && in.Block.Contains(offset) {
		block = in.Block
	}
	var keys []string
	for _, s := range block.Settings {
		if !s.Key.Contains(offset) && !slices.Contains(keys, s.Key.Text) {
			keys = append(keys, s.Key.Text)
		}
	}
	return keys
}
