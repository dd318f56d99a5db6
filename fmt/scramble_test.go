package format_test

import (
	"strings"

	"hame/lang/source"
	"hame/lang/token"
)

// scramble spaces a text anew without changing what it means: other blanks,
// more empty lines, CRLF, semicolons for line ends, and units as they are
// written by hand.
func scramble(text string, seed uint64) string {
	toks, comments := token.Lex(source.New("t.hame", text))
	dice := func(n int) int {
		seed = seed*6364136223846793005 + 1442695040888963407
		return int(seed>>33) % n
	}
	var b strings.Builder
	depth, at := 0, 0
	for i, tok := range toks[:len(toks)-1] {
		gap := text[at:tok.Start]
		if !strings.Contains(gap, "#") && gap != "" && !strings.Contains(gap, "\n") && tok.Kind != token.Newline {
			gap = strings.Repeat(" ", 1+dice(3)*dice(2)) + strings.Repeat("\t", dice(2)*dice(2))
		}
		b.WriteString(gap)
		word := text[tok.Start:tok.End]
		for len(comments) > 0 && comments[0].Start < at {
			comments = comments[1:]
		}
		hasComment := len(comments) > 0 && comments[0].Start < toks[i+1].Start
		switch {
		case tok.Kind == token.LBrace:
			depth++
		case tok.Kind == token.RBrace:
			depth--
		case tok.Kind == token.Newline && depth > 0 && !hasComment && dice(4) == 0:
			word = " ;\t"
		case tok.Kind == token.Newline:
			word = [...]string{"\n", "\r\n", "  \n", "\n\n\n"}[dice(4)]
		case tok.Kind == token.Word && i > 0 && toks[i-1].Kind == token.Number && word == "ohm":
			word = "Ω"
		}
		b.WriteString(word)
		at = tok.End
	}
	return b.String() + text[at:]
}
