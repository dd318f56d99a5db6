package syntax_test

import (
	"strings"
	"testing"

	"hame/lang/source"
	"hame/lang/syntax"
)

// hostile texts and what is to be said of each.
var hostile = []struct {
	name, text string
	findings   int
	says       string
}{
	{"empty", "", 0, ""},
	{"blank", strings.Repeat(" \t\r\n", 10_000), 0, ""},
	{"comments", strings.Repeat("# x\n", 100_000) + "zone a", 0, ""},
	{"one comment", "#" + strings.Repeat("x", 1<<20), 0, ""},
	{"bom", "\uFEFFzone a", 0, ""},
	{"too large", strings.Repeat("#", syntax.MaxBytes+1), 1, "larger than 16 MiB, not read"},
	{"too many tokens", strings.Repeat("a\n", 3<<20), 1, "more than 4 million words and signs, not read"},
	{"nul", "zone a\n\x00", 1, "holds NUL bytes"},
	{"binary", strings.Repeat("\x01\xfe\x7f\x90 ", 1000), 1, "most of this is not text"},
	{"bad comment", "zone a # \xff\xfe\n# \xff", 1, "the comment holds bytes that are not UTF-8"},
	{"nested", "load led a " + strings.Repeat("{ b ", 100_000), 2, "is not closed"},
	{"nested and closed", "load led a " + strings.Repeat("{ b ", 100_000) + strings.Repeat("}", 100_000), 1, "no block stands in a setting's block"},
	{"open braces", strings.Repeat("{", 100_000), 1, "belongs to no statement"},
	{"closing braces", strings.Repeat("}", 100_000), 1, "closes nothing"},
	{"closing lines", strings.Repeat("}\n", 100_000), 201, "more than 200 mistakes"},
	{"long line", "place " + strings.Repeat("a, ", 100_000) + "a in b", 1, "more than 10000 words and signs"},
	{"long setting", "load led a { b " + strings.Repeat("c ", 100_000) + "\n}", 1, "more than 10000 words and signs"},
	{"long word", "zone " + strings.Repeat("a", 1<<20), 0, ""},
	{"long number", "load led a { draws " + strings.Repeat("9", 1<<20) + " W }", 1, "at most 30 digits"},
	{"long text", `load led a { note "` + strings.Repeat("x", 1<<20) + `" }`, 0, ""},
	{"open text", `use "` + strings.Repeat("x", 1<<20), 1, "not closed before its line ends"},
	{"unknown words", strings.Repeat("foo bar\n", 100_000), 201, "more than 200 mistakes"},
	{"commas", strings.Repeat(",", 100_000), 1, "expected a statement"},
	{"pretenders", strings.Repeat("zone a\n zone b\n", 50_000), 0, ""},
	{"dotted", "wire w " + strings.Repeat("a.", 100_000) + "b -> c 1 mm2", 0, ""},
	{"points", strings.Repeat("1.", 100_000), 1, "is no number"},
}

func TestHostileTexts(t *testing.T) {
	for _, c := range hostile {
		f := syntax.Parse(source.New("t.hame", c.text))
		if len(f.Mistakes) != c.findings {
			t.Errorf("%s: %d findings, want %d", c.name, len(f.Mistakes), c.findings)
		}
		said := c.says == ""
		for _, m := range f.Mistakes {
			said = said || strings.Contains(m.Message, c.says)
			if len(m.Message) > 500 {
				t.Errorf("%s: a message of %d bytes", c.name, len(m.Message))
			}
		}
		if !said {
			t.Errorf("%s: no finding says %q", c.name, c.says)
		}
	}
}

// The last finding of too many says so, and stands last.
func TestTooManyMistakes(t *testing.T) {
	f := syntax.Parse(source.New("t.hame", strings.Repeat("}\n", 1000)))
	last := f.Mistakes[len(f.Mistakes)-1]
	if line := f.Source.Position(last.At.Start).Line; line != 201 || !strings.Contains(last.Message, "more than 200") {
		t.Errorf("line %d: %s", line, last.Message)
	}
}

func BenchmarkHostile(b *testing.B) {
	for _, c := range hostile {
		if len(c.text) < 1000 {
			continue
		}
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.text)))
			for b.Loop() {
				syntax.Parse(source.New("t.hame", c.text))
			}
		})
	}
}
