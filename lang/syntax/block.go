package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/source"
	"hame/lang/token"
)

// block reads from its opening brace to its closing one. Where that is missing
// and an opening one inside it was reported, that is the same mistake.
func (r *reader) block(subject string, column, depth int) *Block {
	open, surplus := r.toks[r.at], r.surplus
	b := &Block{Span: open.Span}
	r.at++
	r.body(b, subject, column, depth)
	if !b.Closed && !r.stop {
		if r.surplus == surplus {
			r.mistake(open.Span, subject, "the block that opens here is not closed: expected a `}`")
		}
		r.stop = true
	}
	if depth == 1 {
		r.stop = false
	}
	return b
}

// body reads settings up to the closing brace, the end of the text, or the next
// declaration, which tells that the brace is missing.
func (r *reader) body(b *Block, subject string, column, depth int) {
	for surplus := 0; !b.Closed && !r.stop && !r.breaksOff(column); {
		switch r.kind() {
		case token.Newline, token.Semicolon:
			r.at++
		case token.RBrace:
			r.at++
			b.Closed = surplus == 0 || !r.closesAgain()
			surplus--
		case token.LBrace:
			surplus += r.surplusOpen(subject)
		default:
			r.setting(b, subject, column, depth)
		}
	}
	b.End = r.lastEnd()
}

// breaksOff reports that a block ends here without its closing brace.
func (r *reader) breaksOff(column int) bool {
	return r.kind() == token.EOF || r.nextDeclaration(r.at, column)
}

// surplusOpen passes over braces that belong to no setting: what follows them is
// read as if they were not there.
func (r *reader) surplusOpen(subject string) int {
	first := r.at
	r.mistake(r.toks[first].Span, subject, "this `{` belongs to no setting")
	r.surplus++
	for r.kind() == token.LBrace {
		r.at++
	}
	return r.at - first
}

// closesAgain reports whether another closing brace follows, so that the one
// before belongs to a surplus opening one.
func (r *reader) closesAgain() bool {
	i := r.at
	for r.toks[i].Kind == token.Newline || r.toks[i].Kind == token.Semicolon {
		i++
	}
	return r.toks[i].Kind == token.RBrace
}

func (r *reader) setting(b *Block, subject string, column, depth int) {
	start, end := r.at, max(r.headerEnd(column), r.at+1)
	s, wrong := r.readSetting(r.toks[start:end])
	r.at = end
	if !s.Key.IsZero() {
		b.Settings = append(b.Settings, s)
	}
	if wrong != nil {
		s.Broken = true
		r.mistake(wrong.Span, subject, wrong.message)
		b.Closed = r.swallowedBrace(b.Start, end-1)
	}
	if !b.Closed && r.opens(subject) {
		r.settingBlock(s, subject, column, depth)
	}
	s.Span = source.Span{Start: r.toks[start].Start, End: r.lastEnd()}
}

// readSetting reads a key and what follows it. Both read themselves, and nothing
// else stands in a setting, so there is nothing for a grammar to say.
func (r *reader) readSetting(toks []token.Token) (*Setting, *fault) {
	if len(toks) > maxHeader {
		s, _ := r.readSetting(toks[:1])
		return s, &fault{toks[maxHeader].Span, tooLong}
	}
	s, lex := r.settings.One(), r.desk.Lay(r.text, toks)
	var wrong *fault
	if s.Key, wrong = readKey(lex); wrong != nil {
		return s, wrong
	}
	r.scratch, wrong = readValues(lex, r.scratch[:0])
	for i := range r.scratch {
		r.scratch[i].written(r.text)
	}
	s.Values = r.values.Copies(r.scratch)
	return s, wrong
}

// readKey takes any word: which keys there are is for the table of kinds to say.
func readKey(lex *lexer.PeekingLexer) (Name, *fault) {
	if token.KindOf(lex.Peek()) != token.Word {
		return Name{}, expected(lex, "a setting")
	}
	t := lex.Next()
	return Name{Text: t.Value, Span: token.SpanOf(t)}, nil
}

func (r *reader) settingBlock(s *Setting, subject string, column, depth int) {
	if depth < maxDepth {
		s.Block = r.block(subject, column, depth+1)
		return
	}
	r.mistake(r.toks[r.at].Span, subject, "no block stands in a setting's block")
	s.Broken = true
	r.skipBlock(column)
}

// swallowedBrace reports whether a text whose closing quote is missing ran over
// the closing brace of a block that opened on the same line.
func (r *reader) swallowedBrace(open, i int) bool {
	text := r.tokenText(i)
	return r.toks[i].Kind == token.Illegal && text[0] == '"' && strings.Contains(text, "}") &&
		!strings.Contains(r.text[open:r.toks[i].Start], "\n")
}

// skipBlock passes over a block that belongs nowhere, whatever its depth.
func (r *reader) skipBlock(column int) {
	for depth := 0; r.kind() != token.EOF; r.at++ {
		switch r.kind() {
		case token.LBrace:
			depth++
		case token.RBrace:
			if depth--; depth == 0 {
				r.at++
				return
			}
		case token.Word:
			if r.nextDeclaration(r.at, column) {
				return
			}
		}
	}
}
