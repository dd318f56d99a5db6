package token_test

import (
	"strings"
	"testing"

	"github.com/alecthomas/participle/v2/lexer"
	"pgregory.net/rapid"

	"hame/lang/source"
	"hame/lang/token"
)

func TestUnquote(t *testing.T) {
	for _, c := range []struct {
		text, want string
		good       bool
	}{
		{`""`, "", true},
		{`"sap pump"`, "sap pump", true},
		{`"a \"b\" \\ c"`, `a "b" \ c`, true},
		{`"a\nb"`, `a\nb`, false},
		{`"`, `"`, false},
		{`plain`, `plain`, false},
	} {
		if got, good := token.Unquote(c.text); got != c.want || good != c.good {
			t.Errorf("%s is %q, %v; want %q, %v", c.text, got, good, c.want, c.good)
		}
	}
}

// What Quote writes is one String token that Unquote reads back; of characters
// that the language cannot write only a blank is left.
func TestQuoteReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		quoted := token.Quote(text)
		tokens, _ := token.Lex(source.New("t.hame", quoted))
		if len(tokens) != 2 || tokens[0].Kind != token.String {
			t.Fatalf("%q lexes as %s", quoted, show(quoted, tokens))
		}
		want := strings.Map(func(r rune) rune {
			if r < ' ' && r != '\t' || r == 0x7f {
				return ' '
			}
			return r
		}, text)
		if got, good := token.Unquote(quoted); got != want || !good {
			t.Fatalf("%q comes back as %q", text, got)
		}
	})
}

func TestIsName(t *testing.T) {
	for text, want := range map[string]bool{
		"w1": true, "left-hand_2": true, "a-1": true, "wire": true,
		"": false, "1w": false, "a-": false, "a--b": false, "_a": false, "a.b": false, "mm²": false, "Ω": false, "a_-b": false,
	} {
		if token.IsName(text) != want {
			t.Errorf("IsName(%q) is %v", text, !want)
		}
	}
}

// participle sees each token once, with the byte offset where it stands.
func TestStreamKeepsOffsets(t *testing.T) {
	text := "wire w1 -> Ω\n"
	lex, err := token.Definition{}.Lex("t.hame", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	peeker, err := lexer.Upgrade(lex)
	if err != nil {
		t.Fatal(err)
	}
	tokens, _ := token.Lex(source.New("t.hame", text))
	for _, want := range tokens {
		got := peeker.Next()
		if token.KindOf(got) != want.Kind || token.SpanOf(got) != want.Span {
			t.Errorf("%v at %v, want %v at %v", token.KindOf(got), token.SpanOf(got), want.Kind, want.Span)
		}
	}
}

// Statements laid one over the other are seen each as it is, whatever their
// lengths.
func TestDeskLaysStatementsOver(t *testing.T) {
	text := "wire w1 a -> b\nzone z\n\nplace a, b, c in z\nuse \"x\"\n"
	tokens, _ := token.Lex(source.New("t.hame", text))
	var desk token.Desk
	for i, first := 0, 0; i < len(tokens); i++ {
		if tokens[i].Kind != token.Newline {
			continue
		}
		lex := desk.Lay(text, tokens[first:i])
		for _, want := range tokens[first:i] {
			if got := lex.Next(); token.KindOf(got) != want.Kind || token.SpanOf(got) != want.Span {
				t.Errorf("%v at %v, want %v at %v", token.KindOf(got), token.SpanOf(got), want.Kind, want.Span)
			}
		}
		if end := lex.Peek(); !end.EOF() || i > first && end.Pos.Offset != tokens[i-1].End {
			t.Errorf("the end of %q is %v", text[:tokens[i].End], end)
		}
		first = i + 1
	}
}
