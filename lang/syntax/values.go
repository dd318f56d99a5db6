package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/token"
)

// readValue reads one value by its form alone.
func readValue(lex *lexer.PeekingLexer) (Value, *fault) {
	t := lex.Peek()
	v := Value{Text: t.Value, Span: token.SpanOf(t)}
	switch token.KindOf(t) {
	case token.Number:
		return readQuantity(lex)
	case token.Word:
		return readSlashed(lex)
	case token.String:
		return readText(lex)
	case token.Dotted:
		v.Kind = Dotted
	case token.Date:
		v.Kind = Date
	case token.Compare:
		v.Kind = Compare
	case token.Comma:
		v.Kind = Comma
	default:
		return v, expected(lex, "a value")
	}
	lex.Next()
	return v, nil
}

// readSlashed reads a Word or, where a slash and a word are glued to it, two.
func readSlashed(lex *lexer.PeekingLexer) (Value, *fault) {
	t := lex.Next()
	v := Value{Kind: Word, Text: t.Value, Span: token.SpanOf(t)}
	if _, ok := glued(lex, v.End, token.Slash); !ok {
		return v, nil
	}
	second, ok := glued(lex, v.End+1, token.Word)
	if !ok {
		return v, expected(lex, "a word right behind the slash")
	}
	v.Kind, v.Text, v.End = Slashed, v.Text+"/"+second.Value, token.SpanOf(second).End
	return v, nil
}

func readText(lex *lexer.PeekingLexer) (Value, *fault) {
	t := lex.Next()
	text, good := token.Unquote(t.Value)
	v := Value{Kind: Text, Text: text, Span: token.SpanOf(t)}
	if !good {
		return v, &fault{v.Span, `in a text, \ stands only before " and \`}
	}
	return v, nil
}

// written gives a value of several tokens its text as it stands in the file.
func (v *Value) written(text string) {
	if v.Kind == Number || v.Kind == Range {
		v.Text = text[v.Start:v.End]
	}
}

// readValues reads what follows a setting's key to its end: values, and commas
// only between them. It stops at the first mistake; the list has what stood before.
func readValues(lex *lexer.PeekingLexer, list []Value) ([]Value, *fault) {
	comma := true
	for !lex.Peek().EOF() {
		if comma && token.KindOf(lex.Peek()) == token.Comma {
			break
		}
		v, wrong := readValue(lex)
		if wrong != nil {
			return list, wrong
		}
		list, comma = append(list, v), v.Kind == Comma
	}
	if comma && (len(list) > 0 || !lex.Peek().EOF()) {
		return list, expected(lex, "a value")
	}
	return list, nil
}
