package format_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	format "hame/fmt"
	"hame/lang/source"
	"hame/lang/token"
)

// A token that is missing, doubled or strange breaks a statement or two: those
// stay, and the rest of the file is formatted all the same.
func TestDamageStaysLocal(t *testing.T) {
	texts := harnesses(t)
	text := texts["../examples/forwarder/harness.hame"]
	toks, _ := token.Lex(source.New("t.hame", text))
	rapid.Check(t, func(t *rapid.T) {
		tok := toks[rapid.IntRange(0, len(toks)-2).Draw(t, "token")]
		word := text[tok.Start:tok.End]
		instead := rapid.SampledFrom([]string{"", "~", `"`, word + " " + word, "{", "}", "->", ","}).Draw(t, "instead")
		damaged := squeezed(text[:tok.Start]) + instead + squeezed(text[tok.End:])
		holds(t, damaged)
		out, err := format.Source(source.New("t.hame", damaged))
		if err != nil {
			t.Fatal(err)
		}
		was, is := strings.Split(text, "\n"), strings.Split(out, "\n")
		lost := 0
		for _, line := range was {
			if !slices.Contains(is, line) {
				lost++
			}
		}
		if lost > len(was)/4 {
			t.Errorf("%q for %q at line %d: %d of %d lines are set otherwise", instead, word,
				strings.Count(text[:tok.Start], "\n")+1, lost, len(was))
		}
	})
}

// squeezed has one blank where there were several, but for line starts.
func squeezed(text string) string {
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		inner := strings.TrimLeft(line, " ")
		lines = append(lines, line[:len(line)-len(inner)]+strings.Join(strings.Fields(inner), " "))
	}
	return strings.Join(lines, "\n")
}
