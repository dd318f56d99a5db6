package token

import (
	"io"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/source"
)

// Definition makes these tokens known to participle. A symbol's type is its
// Kind as a number, EOF apart, which participle numbers itself.
type Definition struct{}

var kindNames = [...]string{
	EOF: "EOF", Newline: "Newline", Word: "Word", Dotted: "Dotted", Number: "Number",
	String: "String", Date: "Date", Arrow: "Arrow", DotDot: "DotDot", Slash: "Slash",
	Percent: "Percent", Compare: "Compare", LBrace: "LBrace", RBrace: "RBrace",
	Semicolon: "Semicolon", Comma: "Comma", Illegal: "Illegal",
}

func (k Kind) String() string { return kindNames[k] }

// Symbols names the token types for grammars.
func (Definition) Symbols() map[string]lexer.TokenType {
	symbols := make(map[string]lexer.TokenType, len(kindNames))
	for kind, name := range kindNames {
		symbols[name] = typeOf(Kind(kind))
	}
	return symbols
}

// Lex reads and cuts a whole text. Parsers that have the tokens already use a
// Desk instead.
func (Definition) Lex(filename string, r io.Reader) (lexer.Lexer, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	f := source.New(filename, string(text))
	tokens, _ := Lex(f)
	return &stream{text: f.Text, tokens: tokens}, nil
}

// stream hands out tokens that are cut already.
type stream struct {
	text   string
	tokens []Token
	end    int // of the last token handed out
}

func (s *stream) Next() (lexer.Token, error) {
	if len(s.tokens) == 0 || s.tokens[0].Kind == EOF {
		return lexer.EOFToken(lexer.Position{Offset: s.end}), nil
	}
	t := s.tokens[0]
	s.tokens, s.end = s.tokens[1:], t.End
	return handed(s.text, t), nil
}

// handed is a token as participle is handed it. Of its position only the byte
// offset is set.
func handed(text string, t Token) lexer.Token {
	return lexer.Token{
		Type:  typeOf(t.Kind),
		Value: text[t.Start:t.End],
		Pos:   lexer.Position{Offset: t.Start},
	}
}

// Desk is where statements are laid out for participle, each over the one before.
// A lexer of its own for each would be most of what reading a text costs.
type Desk struct {
	lex  *lexer.PeekingLexer
	room int // tokens that it holds, EOF apart
}

// Lay lays out a statement's tokens, none of them EOF, and gives the lexer that
// stands before the first. What it gave before is overwritten.
func (d *Desk) Lay(text string, tokens []Token) *lexer.PeekingLexer {
	if d.lex == nil || len(tokens) > d.room {
		d.lex, _ = lexer.Upgrade(&stream{text: text, tokens: tokens}) // a stream has no errors
		d.room = len(tokens)
		return d.lex
	}
	places, end := d.lex.Range(0, lexer.RawCursor(len(tokens)+1)), 0
	for i, t := range tokens {
		places[i], end = handed(text, t), t.End
	}
	places[len(tokens)] = lexer.EOFToken(lexer.Position{Offset: end})
	d.lex.LoadCheckpoint(lexer.Checkpoint{})
	return d.lex
}

func typeOf(k Kind) lexer.TokenType {
	if k == EOF {
		return lexer.EOF
	}
	return lexer.TokenType(k)
}

// KindOf is the kind of a token that participle hands on.
func KindOf(t *lexer.Token) Kind {
	if t.EOF() {
		return EOF
	}
	return Kind(t.Type)
}

// SpanOf is where a token that participle hands on stands.
func SpanOf(t *lexer.Token) source.Span {
	return source.Span{Start: t.Pos.Offset, End: t.Pos.Offset + len(t.Value)}
}
