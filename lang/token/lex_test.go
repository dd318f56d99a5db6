package token_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"hame/lang/source"
	"hame/lang/token"
)

// show writes tokens as Kind:text, line ends and the end of the text as ¶ and $.
func show(text string, tokens []token.Token) string {
	var words []string
	for _, t := range tokens {
		switch t.Kind {
		case token.EOF:
			words = append(words, "$")
		case token.Newline:
			words = append(words, "¶")
		default:
			words = append(words, t.Kind.String()+":"+text[t.Start:t.End])
		}
	}
	return strings.Join(words, " ")
}

func lex(text string) string {
	tokens, _ := token.Lex(source.New("t.hame", text))
	return show(text, tokens)
}

// The forms of language §2.
func TestLexForms(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "$"},
		{"wire w-1_b", "Word:wire Word:w-1_b $"},
		{"a->b", "Word:a Arrow:-> Word:b $"},
		{"a-1 a- a--b -a", "Word:a-1 Word:a Illegal:- Word:a Illegal:-- Word:b Illegal:- Word:a $"},
		{"k1.87a s2.1.in x1.female.3", "Dotted:k1.87a Dotted:s2.1.in Dotted:x1.female.3 $"},
		{"a. b .c a..b", "Word:a Illegal:. Word:b Illegal:. Word:c Word:a DotDot:.. Word:b $"},
		{"0.15..1", "Number:0.15 DotDot:.. Number:1 $"},
		{"-20..85 degC", "Number:-20 DotDot:.. Number:85 Word:degC $"},
		{"-20..-5", "Number:-20 DotDot:.. Number:-5 $"},
		{"1 mm2..6 mm2", "Number:1 Word:mm2 DotDot:.. Number:6 Word:mm2 $"},
		{"5. .5 -.5 1.2.3 5.", "Illegal:5. Illegal:.5 Illegal:-.5 Illegal:1.2.3 Illegal:5. $"},
		{"10A 18AWG 2.5mm²", "Number:10 Word:A Number:18 Word:AWG Number:2.5 Word:mm² $"},
		{"2/0 AWG", "Number:2 Slash:/ Number:0 Word:AWG $"},
		{"96Ω 3 mΩ 85°C 1µs", "Number:96 Word:Ω Number:3 Word:mΩ Number:85 Word:°C Number:1 Word:µs $"},
		{"80 % 80%", "Number:80 Percent:% Number:80 Percent:% $"},
		{"2027-05-31 2027-5-31 1-2", "Date:2027-05-31 Illegal:2027-5-31 Illegal:1-2 $"},
		{`"a \"b\" \\" "`, `String:"a \"b\" \\" Illegal:" $`},
		{"\"open\nx", "Illegal:\"open ¶ Word:x $"},
		{"\"open\r\nx", "Illegal:\"open ¶ Word:x $"},
		{"< <= > >= =", "Compare:< Compare:<= Compare:> Compare:>= Illegal:= $"},
		{"yellow/green {};", "Word:yellow Slash:/ Word:green LBrace:{ RBrace:} Semicolon:; $"},
		{"a\r\nb\n", "Word:a ¶ Word:b ¶ $"},
		{"a\rb", "Word:a Illegal:\r Word:b $"},
		{"\uFEFFa\uFEFF", "Word:a Illegal:\uFEFF $"},
		{"a \x00\x01\xff\x80! b", "Word:a Illegal:\x00\x01\xff\x80! Word:b $"},
		{"caf\u00e9", "Word:caf Illegal:\u00e9 $"},
		{"\"a\x00b\" \"\xff\" \"\t\"", "Illegal:\"a\x00b\" Illegal:\"\xff\" String:\"\t\" $"},
		{"+5 a+5 -", "Number:+5 Word:a Number:+5 Illegal:- $"},
	} {
		if diff := cmp.Diff(c.want, lex(c.text)); diff != "" {
			t.Errorf("%q (-want +got)\n%s", c.text, diff)
		}
	}
}

// A line that ends in a comma or an arrow goes on in the next; a comment may
// follow (language §2).
func TestLexContinuesLines(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"a,\nb\nc", "Word:a Comma:, Word:b ¶ Word:c $"},
		{"a -> # to\n\n# and on\n b\n", "Word:a Arrow:-> Word:b ¶ $"},
		{"a\n, b", "Word:a ¶ Comma:, Word:b $"},
		{"a,\r\n}", "Word:a Comma:, RBrace:} $"},
	} {
		if got := lex(c.text); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

func TestLexComments(t *testing.T) {
	text := "# one\r\na # two\n  # three, \"x\n\"#\" #"
	_, comments := token.Lex(source.New("t.hame", text))
	var got []string
	for _, c := range comments {
		line := text[c.Start:c.End]
		if c.Alone {
			line += " (alone)"
		}
		got = append(got, line)
	}
	want := []string{"# one (alone)", "# two", "# three, \"x (alone)", "#"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// covers fails unless tokens, comments and blanks make up the whole text.
func covers(t interface{ Fatalf(string, ...any) }, text string) {
	tokens, comments := token.Lex(source.New("t.hame", text))
	at, c := 0, 0
	step := func(s source.Span) {
		if s.Start < at || s.End < s.Start || s.End > len(text) {
			t.Fatalf("span %v after byte %d in %q", s, at, text)
		}
		if gap := strings.TrimPrefix(text[at:s.Start], "\uFEFF"); strings.Trim(gap, " \t\r\n") != "" {
			t.Fatalf("%q of %q is in no token", gap, text)
		}
		at = s.End
	}
	for _, tok := range tokens {
		for ; c < len(comments) && comments[c].Start < tok.Start; c++ {
			step(comments[c].Span)
		}
		if tok.Kind == token.EOF && c < len(comments) {
			step(comments[c].Span)
		}
		step(tok.Span)
	}
	if last := tokens[len(tokens)-1]; last.Kind != token.EOF || at != len(text) {
		t.Fatalf("ends with %v at %d of %d", last, at, len(text))
	}
}

func TestLexCoversTheText(t *testing.T) {
	piece := rapid.SampledFrom(strings.Split("a|a.1|wire|1|2.5|.|..|-|->|,|;|{|}|/|%|<|<=|#|\"|\\|\n|\r\n|\r| |\t|Ω|²|é|\x00|\xff|2027-05-31|\uFEFF|=|x y", "|"))
	rapid.Check(t, func(t *rapid.T) {
		covers(t, strings.Join(rapid.SliceOf(piece).Draw(t, "pieces"), ""))
	})
}

func TestLexStopsAtItsBound(t *testing.T) {
	text := strings.Repeat(";", token.MaxTokens+10)
	tokens, _ := token.Lex(source.New("t.hame", text))
	rest := tokens[token.MaxTokens]
	if len(tokens) != token.MaxTokens+2 || rest.Kind != token.Illegal || rest.Len() != 10 {
		t.Errorf("%d tokens, of which the last but one is %v", len(tokens), rest)
	}
}

func FuzzLex(f *testing.F) {
	f.Add("wire w1 main.pos -> f.in 10 mm2 # x\n\"\\\"")
	f.Add("\uFEFF5. .5 1.2.3 2027-05-31 a--b\r\n\x00é")
	f.Fuzz(func(t *testing.T, text string) { covers(t, text) })
}

func BenchmarkLex(b *testing.B) {
	line := "wire w12  s_front.out  -> front_right.pos  1.5 mm2   blue    { cover loom_pa }  # right\n"
	f := source.New("t.hame", strings.Repeat(line, 1000))
	b.SetBytes(int64(len(f.Text)))
	for b.Loop() {
		token.Lex(f)
	}
}
