package syntax

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/token"
)

// Families are the words that a device's declaration starts with.
var Families = []string{"supply", "protection", "switch", "load", "join", "ground"}

var quantities = []string{"volts", "current", "drop", "warmth"}

// name takes the next token if it may be a name.
func (n *Name) name(lex *lexer.PeekingLexer, noun string) error {
	t := lex.Peek()
	if token.KindOf(t) != token.Word || !token.IsName(t.Value) {
		return expected(lex, noun)
	}
	n.Text, n.Span = t.Value, token.SpanOf(lex.Next())
	return nil
}

// oneOf takes the next token if it is one of the words.
func (n *Name) oneOf(lex *lexer.PeekingLexer, words []string, noun string) error {
	if !slices.Contains(words, lex.Peek().Value) {
		return expected(lex, noun+strings.Join(words, ", "))
	}
	return n.name(lex, noun)
}

func (n *newName) Parse(lex *lexer.PeekingLexer) error   { return n.name(lex, "a name") }
func (n *kindName) Parse(lex *lexer.PeekingLexer) error  { return n.name(lex, "a kind") }
func (n *placeName) Parse(lex *lexer.PeekingLexer) error { return n.name(lex, "a place") }
func (n *zoneName) Parse(lex *lexer.PeekingLexer) error  { return n.name(lex, "a zone") }

func (n *familyName) Parse(lex *lexer.PeekingLexer) error {
	return n.oneOf(lex, Families, "a family, one of ")
}

func (n *whatName) Parse(lex *lexer.PeekingLexer) error {
	return n.oneOf(lex, quantities, "what is required, one of ")
}

func (n *inMode) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().Value != "in" {
		return nil
	}
	lex.Next()
	return n.name(lex, "a mode")
}

// trailing reports an `in` that is no name of a place, since one is missing
// before it: a zone and nothing more follows.
func trailing(lex *lexer.PeekingLexer) bool {
	if lex.Peek().Value != "in" {
		return false
	}
	start := lex.MakeCheckpoint()
	defer lex.LoadCheckpoint(start)
	lex.Next()
	zone := lex.Next()
	return token.KindOf(zone) == token.Word && zone.Value != "in" && lex.Peek().EOF()
}

// mark takes the next token if it is exactly that.
func mark(lex *lexer.PeekingLexer, text string) error {
	if lex.Peek().Value != text {
		return expected(lex, "`"+text+"`")
	}
	lex.Next()
	return nil
}

func (*wordIn) Parse(lex *lexer.PeekingLexer) error  { return mark(lex, "in") }
func (*wordIs) Parse(lex *lexer.PeekingLexer) error  { return mark(lex, "is") }
func (*wordOn) Parse(lex *lexer.PeekingLexer) error  { return mark(lex, "on") }
func (*wordWhy) Parse(lex *lexer.PeekingLexer) error { return mark(lex, "because") }

// Parse notes a missing arrow and is content, so that what it points to is read
// all the same. Another character in its place is passed over.
func (a *wordArrow) Parse(lex *lexer.PeekingLexer) error {
	if mark(lex, "->") == nil {
		return nil
	}
	a.Fault = expected(lex, "`->`")
	if token.KindOf(lex.Peek()) == token.Illegal {
		lex.Next()
	}
	return nil
}

// Parse reads names between commas. Past a mistake it looks for `in`, so that
// the zone is read all the same.
func (l *nameList) Parse(lex *lexer.PeekingLexer) error {
	for {
		if trailing(lex) {
			l.Fault = expected(lex, "a name")
			break
		}
		var n Name
		if err := n.name(lex, "a name"); err != nil {
			l.Fault, _ = err.(*fault)
			break
		}
		l.Names = append(l.Names, n)
		if token.KindOf(lex.Peek()) != token.Comma {
			return nil
		}
		lex.Next()
	}
	for t := lex.Peek(); !t.EOF() && t.Value != "in"; t = lex.Peek() {
		lex.Next()
	}
	return nil
}
