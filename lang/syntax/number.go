package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/token"
)

// number is a number as it stands in the text, its unit not yet counted in.
type number struct {
	digits, unit string
	source.Span
}

// glued takes the next token if it is of the kind and stands without a blank
// behind the given end.
func glued(lex *lexer.PeekingLexer, end int, kind token.Kind) (*lexer.Token, bool) {
	t := lex.Peek()
	if token.KindOf(t) != kind || t.Pos.Offset != end {
		return nil, false
	}
	return lex.Next(), true
}

// readNumber takes a Number, the rest of a fraction, and a unit behind it. A
// number's line cannot end before its unit, since only `,` and `->` carry a
// statement on to the next.
func readNumber(lex *lexer.PeekingLexer) number {
	t := lex.Next()
	n := number{digits: t.Value, Span: token.SpanOf(t)}
	before := lex.MakeCheckpoint()
	if _, ok := glued(lex, n.End, token.Slash); ok {
		if below, ok := glued(lex, n.End+1, token.Number); ok {
			n.digits, n.End = n.digits+"/"+below.Value, n.End+1+len(below.Value)
		} else {
			lex.LoadCheckpoint(before)
		}
	}
	n.takeUnit(lex)
	return n
}

func (n *number) takeUnit(lex *lexer.PeekingLexer) {
	t := lex.Peek()
	kind := token.KindOf(t)
	if kind == token.Percent || kind == token.Word && quantity.Known(t.Value) {
		n.unit, n.End = t.Value, token.SpanOf(t).End
		lex.Next()
	}
}

func (n number) quantity() (quantity.Quantity, *fault) {
	q, err := quantity.Parse(n.digits, n.unit)
	if err != nil {
		return q, &fault{n.Span, shown(strings.TrimSpace(n.digits+" "+n.unit)) + " cannot be read: " + err.Error()}
	}
	return q, nil
}

// readQuantity reads a Number or a Range; the next token is a Number.
func readQuantity(lex *lexer.PeekingLexer) (Value, *fault) {
	first := readNumber(lex)
	if wrong := miswritten(lex, first); wrong != nil {
		return Value{}, wrong
	}
	if token.KindOf(lex.Peek()) == token.DotDot {
		return readRange(lex, first)
	}
	q, wrong := first.quantity()
	return Value{Kind: Number, Lo: q, Span: first.Span}, wrong
}

// readRange reads what follows a range's first number. A unit behind the last
// number alone counts for both.
func readRange(lex *lexer.PeekingLexer, first number) (Value, *fault) {
	lex.Next()
	if token.KindOf(lex.Peek()) != token.Number {
		return Value{}, expected(lex, "the last number of the range")
	}
	last := readNumber(lex)
	whole := first.Join(last.Span)
	switch {
	case last.unit == "" && first.unit != "":
		return Value{}, &fault{source.Span{Start: last.End, End: last.End}, "expected a unit after " + last.digits + ": a range's unit stands behind its last number"}
	case first.unit == "":
		first.unit = last.unit
	}
	lo, wrong := first.quantity()
	if wrong != nil {
		return Value{}, wrong
	}
	hi, wrong := last.quantity()
	return Value{Kind: Range, Lo: lo, Hi: &hi, Span: whole}, wrong
}

// miswritten catches what was meant as a unit and is none: 14 awg, 3amps. A word
// that stands apart may be anything else.
func miswritten(lex *lexer.PeekingLexer, n number) *fault {
	t := lex.Peek()
	if n.unit != "" || token.KindOf(t) != token.Word {
		return nil
	}
	if unit, dim := quantity.Meant(t.Value); unit != "" {
		return &fault{token.SpanOf(t), shown(t.Value) + " is not a unit; " + dim.String() + " is written " + n.digits + " " + unit}
	}
	if t.Pos.Offset == n.End {
		return &fault{token.SpanOf(t), shown(t.Value) + " right behind a number is not a unit"}
	}
	return nil
}
