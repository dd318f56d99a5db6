package syntax

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/token"
)

// fault is one mistake in a statement, in the language's words: what a value
// reader returns as its error, and what participle hands through unchanged.
type fault struct {
	source.Span
	message string
}

func (f *fault) Error() string { return f.message }

// expected says what should have stood at the next token.
func expected(lex *lexer.PeekingLexer, noun string) *fault {
	t := lex.Peek()
	if token.KindOf(t) == token.Illegal {
		return &fault{token.SpanOf(t), whyIllegal(t.Value)}
	}
	message := "expected " + noun + after(lex)
	if !t.EOF() {
		message += ", found " + shown(t.Value)
	}
	return &fault{token.SpanOf(t), message}
}

// unexpected says that the next token has no business where it stands.
func unexpected(lex *lexer.PeekingLexer) *fault {
	t := lex.Peek()
	if token.KindOf(t) == token.Illegal {
		return &fault{token.SpanOf(t), whyIllegal(t.Value)}
	}
	message := "unexpected " + shown(t.Value) + after(lex)
	if last := previous(lex); t.Value == "," && last != nil && token.KindOf(last) == token.Number {
		message += "; decimals stand behind a point, such as 1.5"
	}
	return &fault{token.SpanOf(t), message}
}

// previous is the token before the next one, nil at the start.
func previous(lex *lexer.PeekingLexer) *lexer.Token {
	if at := lex.RawCursor(); at > 0 {
		return &lex.Range(at-1, at)[0]
	}
	return nil
}

const mostGlued = 8 // tokens that are shown as one word

// after names what stands before the next token: a token, those glued to it,
// and the number that a unit belongs to.
func after(lex *lexer.PeekingLexer) string {
	end := lex.RawCursor()
	tokens := lex.Range(max(end-mostGlued, 0), end)
	if len(tokens) == 0 {
		return ""
	}
	last := len(tokens) - 1
	if token.KindOf(&tokens[last]) == token.Comma {
		return " after the comma"
	}
	first, text := last, ""
	for first > 0 && token.SpanOf(&tokens[first-1]).End == tokens[first].Pos.Offset {
		first--
	}
	if first == last && first > 0 && token.KindOf(&tokens[first-1]) == token.Number && quantity.Known(tokens[first].Value) {
		text = tokens[first-1].Value + " "
	}
	for _, t := range tokens[first:] {
		text += t.Value
	}
	return " after " + short(text)
}

const longestShown = 40

// shown is a token's text as a message shows it: in backquotes, short, and with
// nothing in it that could upset a terminal.
func shown(text string) string { return "`" + short(text) + "`" }

func short(text string) string {
	cut := text
	if len(cut) > longestShown {
		cut = strings.TrimRightFunc(cut[:longestShown], func(r rune) bool { return r == utf8.RuneError }) + "…"
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsGraphic(r) {
			return r
		}
		return utf8.RuneError
	}, cut)
}

// lookalikes are characters that other programs put in the place of ours.
var lookalikes = map[rune]string{
	'→': "an arrow is written ->", '⇒': "an arrow is written ->",
	'–': "a minus is written -", '—': "a minus is written -", '−': "a minus is written -",
	'“': `a text stands in straight quotes, "…"`, '”': `a text stands in straight quotes, "…"`,
	'„': `a text stands in straight quotes, "…"`, '‘': `a text stands in straight quotes, "…"`,
	'’': `a text stands in straight quotes, "…"`, '\'': `a text stands in straight quotes, "…"`,
	'…': "a range is written with two points, ..", '≤': "write <=", '≥': "write >=",
	'\u00a0': "this is a no-break space; write a plain one",
}

// whyIllegal says what is wrong with an Illegal token.
func whyIllegal(text string) string {
	first, _ := utf8.DecodeRuneInString(text)
	switch {
	case first == '"' && (len(text) == 1 || !strings.HasSuffix(text, `"`)):
		return "the text in quotes is not closed before its line ends"
	case first == '"':
		return "the text in quotes holds characters that cannot be shown"
	case strings.Trim(text, "0123456789-") == "" && strings.ContainsAny(text, "0123456789"):
		return shown(text) + " is no date; a date is written 2027-05-31"
	case strings.Trim(text, "0123456789.-+") == "" && strings.ContainsAny(text, "0123456789"):
		return shown(text) + " is no number; a number has a digit on both sides of its one point, such as 0.5"
	case !utf8.ValidString(text):
		return "bytes that are not UTF-8"
	case unicode.IsControl(first):
		return "a control character"
	case lookalikes[first] != "":
		return shown(text) + " means nothing here; " + lookalikes[first]
	case unicode.IsLetter(first):
		return shown(text) + " cannot stand in a name; names are of the letters a to z, digits, _ and -"
	}
	return shown(text) + " means nothing here"
}
