package format_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	format "hame/fmt"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

func FuzzSource(f *testing.F) {
	for _, pattern := range []string{"testdata/*.txtar", "../lang/syntax/testdata/*/*.hame", "../lang/parts/*.hame"} {
		paths, _ := filepath.Glob(pattern)
		for _, path := range paths {
			if text, err := os.ReadFile(path); err == nil {
				f.Add(string(text))
			}
		}
	}
	f.Fuzz(func(t *testing.T, text string) { holds(t, text) })
}

// Texts of the language's own pieces get further into the formatter than texts
// of any bytes do.
func TestAnyText(t *testing.T) {
	pieces := rapid.SampledFrom(strings.Split(`wire |w1 |a.pos | -> |10 mm2 |sgx |red |0.4 m |{ |}|; |;|, |`+
		"\n|\n|\n\n\n|\r\n|\r|\t|   |# note\n|#\n|\"x\"|\"open|load led x |zone z |place p, |in z |at p|draws 5 A|"+
		"way 1 fuse 5 A|way 2 |96 Ω|-20 .. 85°C|2/0 AWG|2 / 0|practice land |bundle b |part p is |use \"x\"|"+
		"harness h |mode m |é|\x00|allow wire/drop on x because \"y\"|require x volts < 3 V|yellow/green|%|14 awg", "|"))
	rapid.Check(t, func(t *rapid.T) {
		holds(t, strings.Join(rapid.SliceOfN(pieces, 0, 40).Draw(t, "pieces"), ""))
	})
}

type failer interface {
	Helper()
	Fatalf(string, ...any)
}

// nowhere is where a text comes from that has no libraries beside it.
const nowhere = "no-such-folder/t.hame"

// holds checks what is promised of every text.
func holds(t failer, text string) {
	t.Helper()
	findingsStay(t, nowhere, text, keepsWords(t, text))
}

// findingsStay checks that the same is found in a text before and after.
func findingsStay(t failer, path, text, out string) {
	t.Helper()
	if before, after := said(path, text), said(path, out); !slices.Equal(before, after) {
		t.Fatalf("%q\nbecomes %q\nfindings change: %s", text, out, firstDifference(strings.Join(before, "\n"), strings.Join(after, "\n")))
	}
}

// keepsWords checks what is promised of a text as such, and gives it formatted.
func keepsWords(t failer, text string) string {
	t.Helper()
	before := source.New("t.hame", text)
	out, err := format.Source(before)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	again, err := format.Source(source.New("t.hame", out))
	if err != nil || again != out {
		t.Fatalf("%q\nonce  %q\ntwice %q (%v)", text, out, again, err)
	}
	if got, want := words(out), words(text); got != want {
		t.Fatalf("%q\nbecomes %q:\n%s\nwant %s", text, out, got, want)
	}
	brokenStay(t, before, out)
	editsAgree(t, before, out)
	return out
}

// words is a text without what a formatter may change: its tokens and comments,
// separators and blanks left out, units in one spelling.
func words(text string) string {
	toks, comments := token.Lex(source.New("t.hame", text))
	var b strings.Builder
	for _, tok := range toks {
		for len(comments) > 0 && comments[0].Start < tok.Start {
			b.WriteString(strings.TrimRight(text[comments[0].Start:comments[0].End], " \t\r") + "\n")
			comments = comments[1:]
		}
		if tok.Kind != token.Newline && tok.Kind != token.Semicolon {
			b.WriteString(asciiUnits.Replace(text[tok.Start:tok.End]) + "\n")
		}
	}
	return b.String()
}

var asciiUnits = strings.NewReplacer("Ω", "ohm", "\u2126", "ohm", "²", "2", "°", "deg")

// brokenStay checks that what the parser calls broken stands in the output.
func brokenStay(t failer, f *source.File, out string) {
	t.Helper()
	check := func(s source.Span) {
		want := strings.ReplaceAll(f.Slice(s), "\r\n", "\n")
		if !strings.Contains(strings.ReplaceAll(out, "\r\n", "\n"), want) {
			t.Fatalf("%q\nbecomes %q:\nthe broken %q did not stay", f.Text, out, want)
		}
	}
	for _, d := range syntax.Parse(f).Decls {
		h := d.Header()
		if h.Broken {
			check(h.Span)
			continue
		}
		h.Block.Walk(func(s *syntax.Setting) {
			if s.Broken && s.Block == nil {
				check(s.Span)
			}
		})
	}
}

// editsAgree checks that the edits of the whole text make the same of it.
func editsAgree(t failer, f *source.File, out string) {
	t.Helper()
	edits, err := format.Range(f, source.Span{Start: 0, End: len(f.Text)})
	if err != nil {
		t.Fatalf("%q: %v", f.Text, err)
	}
	if got := apply(f.Text, edits); got != out {
		t.Fatalf("%q\nedits %v\nmake  %q\nwant  %q", f.Text, edits, got, out)
	}
}

func apply(text string, edits []format.Edit) string {
	var b strings.Builder
	at := 0
	for _, e := range edits {
		b.WriteString(text[at:e.Start] + e.Text)
		at = e.End
	}
	return b.String() + text[at:]
}
