// Package token cuts a harness file's text into tokens. It never fails: what
// fits nothing becomes an Illegal token. Comments are kept in a list of their
// own, so that no grammar has to know about them.
package token

import "hame/lang/source"

// Kind says what a token is.
type Kind uint8

// The kinds of token.
const (
	EOF     Kind = iota
	Newline      // the end of a line that ends a statement, or would
	Word         // letters, digits, _ and inner -; units such as mm² and Ω too
	Dotted       // device.terminal, as one token
	Number       // digits, a point with digits on both sides, a leading - or +
	String       // "…" with its quotes
	Date         // 2027-05-31
	Arrow        // ->
	DotDot       // ..
	Slash        // /
	Percent      // %
	Compare      // < <= > >=
	LBrace
	RBrace
	Semicolon
	Comma
	Illegal
)

// Token is a kind and a span of the text.
type Token struct {
	Kind Kind
	source.Span
}

// Comment is a comment from its # to the end of its line, line break excluded.
type Comment struct {
	source.Span
	Alone bool // nothing but white space stands before it on its line
}
