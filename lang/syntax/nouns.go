package syntax

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/quantity"
	"hame/lang/token"
)

// The parts of statement headers. Each reads itself and knows what it is called
// where it is missing. Those that may be left out read nothing and are content.
type (
	newName    struct{ Name }  // the name that is being declared
	kindName   struct{ Name }  // KIND
	familyName struct{ Name }  // FAMILY
	placeName  struct{ Name }  // PLACE
	zoneName   struct{ Name }  // ZONE
	whatName   struct{ Name }  // volts|current|drop|warmth
	inMode     struct{ Name }  // [in MODE]
	subject    struct{ Value } // NAME of a device or of a panel's way
	endpoint   struct{ Value } // END
	gauge      struct{ Value } // GAUGE
	length     struct{ Value } // LENGTH
	lengthOrNo struct{ Value } // [LENGTH]
	amount     struct{ Value } // QUANTITY
	compareOp  struct{ Value } // < | <= | > | >=
	path       struct{ Value } // "path"
	reason     struct{ Value } // "…"
	ruleName   struct{ Value } // RULE
	untilDate  struct{ Value } // [until DATE]
	wordArrow  struct{ Fault *fault }
	wordIn     struct{}
	wordIs     struct{}
	wordOn     struct{}
	wordWhy    struct{} // because
	nameList   struct { // NAME, NAME …
		Names []Name
		Fault *fault
	}
	wireWords struct{ Values []Value } // [INSULATION] [COLOUR]
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

// value takes the next value if it fits; else nothing is taken.
func (v *Value) value(lex *lexer.PeekingLexer, noun string, fits func(Value) bool) error {
	start := lex.MakeCheckpoint()
	got, wrong := readValue(lex)
	switch taken := lex.RawCursor() > start.RawCursor(); {
	case wrong != nil && taken:
		return wrong
	case wrong != nil:
		return expected(lex, noun)
	case fits(got):
		*v = got
		return nil
	}
	lex.LoadCheckpoint(start)
	return misfit(lex, noun, got)
}

// misfit is expected, with the whole value as what was found.
func misfit(lex *lexer.PeekingLexer, noun string, found Value) *fault {
	text := found.Text
	switch found.Kind {
	case Range:
		return expected(lex, noun)
	case Number:
		text = found.Lo.String()
	case Text:
		text = token.Quote(found.Text)
	}
	return &fault{found.Span, "expected " + noun + after(lex) + ", found " + shown(text)}
}

func isTerminal(v Value) bool { return v.Kind == Word || v.Kind == Dotted }
func isText(v Value) bool     { return v.Kind == Text }
func isCompare(v Value) bool  { return v.Kind == Compare }
func isRule(v Value) bool     { return v.Kind == Slashed }
func isDate(v Value) bool     { return v.Kind == Date }
func isLength(v Value) bool   { return v.Kind == Number && v.Lo.Dim == quantity.Length }
func isAmount(v Value) bool   { return v.Kind == Number && v.Lo.Dim != quantity.None }

func isGauge(v Value) bool {
	return v.Kind == Number && v.Lo.Dim == quantity.Area || v.Kind == Word && v.Text == "auto"
}

func (v *subject) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a name", isTerminal)
}

func (v *endpoint) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a terminal such as main.pos", isTerminal)
}

func (v *gauge) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a gauge such as 2.5 mm2, 14 AWG or auto", isGauge)
}

func (v *length) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a length such as 0.9 m", isLength)
}

func (v *lengthOrNo) Parse(lex *lexer.PeekingLexer) error {
	if token.KindOf(lex.Peek()) != token.Number {
		return nil
	}
	return v.value(lex, "a length such as 0.9 m", isLength)
}

func (v *compareOp) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "one of <, <=, >, >=", isCompare)
}

func (v *path) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, `a path in quotes such as "parts/lamps.hame"`, isText)
}

func (v *reason) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a reason in quotes", isText)
}

func (v *ruleName) Parse(lex *lexer.PeekingLexer) error {
	return v.value(lex, "a rule such as wire/drop", isRule)
}

// Parse takes the `in` of `0 in parked` for what it is: no inches are meant, and
// the unit is what is missing.
func (v *amount) Parse(lex *lexer.PeekingLexer) error {
	const noun = "a quantity with its unit such as 11.2 V"
	inches := false
	err := v.value(lex, noun, func(v Value) bool {
		inches = v.Lo.Unit == "in" && token.KindOf(lex.Peek()) == token.Word
		return isAmount(v) && !inches
	})
	if inches {
		return expected(lex, noun)
	}
	return err
}

func (v *untilDate) Parse(lex *lexer.PeekingLexer) error {
	if lex.Peek().Value != "until" {
		return nil
	}
	lex.Next()
	return v.value(lex, "a date such as 2027-05-31", isDate)
}

// Parse reads names between commas. Past a mistake it looks for `in`, so that
// the zone is read all the same.
func (l *nameList) Parse(lex *lexer.PeekingLexer) error {
	for {
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

func (l *wireWords) Parse(lex *lexer.PeekingLexer) error {
	for token.KindOf(lex.Peek()) == token.Word {
		v, wrong := readSlashed(lex)
		if wrong != nil {
			return wrong
		}
		l.Values = append(l.Values, v)
	}
	return nil
}
