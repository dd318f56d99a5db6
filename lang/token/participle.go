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

// Lex reads and cuts a whole text. Parsers that have the tokens already use
// Stream instead.
func (Definition) Lex(filename string, r io.Reader) (lexer.Lexer, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	f := source.New(filename, string(text))
	tokens, _ := Lex(f)
	return Stream(f.Text, tokens), nil
}

// Stream hands out tokens that are cut already: one statement's, say. Of each
// token's position only the byte offset is set.
func Stream(text string, tokens []Token) lexer.Lexer { return &stream{text: text, tokens: tokens} }

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
	return lexer.Token{
		Type:  lexer.TokenType(t.Kind),
		Value: s.text[t.Start:t.End],
		Pos:   lexer.Position{Offset: t.Start},
	}, nil
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
