package syntax_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hame/lang/source"
	"hame/lang/syntax"
)

type failer interface {
	Fatalf(format string, args ...any)
}

func inside(t failer, what string, in, s source.Span) {
	if s.Start < in.Start || s.End < s.Start || s.End > in.End {
		t.Fatalf("%s at %v is not in %v", what, s, in)
	}
}

func checkBlock(t failer, b *syntax.Block, in source.Span, text string) {
	if b == nil {
		return
	}
	inside(t, "block", in, b.Span)
	at := b.Start
	for _, s := range b.Settings {
		inside(t, "setting "+s.Key.Text, source.Span{Start: at, End: b.End}, s.Span)
		if s.Key.IsZero() || text[s.Key.Start:s.Key.End] != s.Key.Text {
			t.Fatalf("key %q at %v", s.Key.Text, s.Key.Span)
		}
		for _, v := range s.Values {
			inside(t, "value "+v.Text, s.Span, v.Span)
			if v.Kind != syntax.Text && text[v.Start:v.End] != v.Text {
				t.Fatalf("value %q stands as %q", v.Text, text[v.Start:v.End])
			}
		}
		checkBlock(t, s.Block, s.Span, text)
		at = s.End
	}
}

// sound fails unless the tree fits the text: spans inside it, in order and
// nested, texts as they stand there, tokens that make up the whole of it.
func sound(t failer, text string) {
	f := syntax.Parse(source.New("t.hame", text))
	whole := source.Span{End: len(text)}
	for _, m := range f.Mistakes {
		inside(t, m.Message, whole, m.At.Span)
		if m.Rule != syntax.Rule || m.Message == "" {
			t.Fatalf("finding %+v", m)
		}
	}
	at := 0
	for _, d := range f.Decls {
		h := d.Header()
		inside(t, "declaration "+h.Name.Text, source.Span{Start: at, End: len(text)}, h.Span)
		if !h.Name.IsZero() {
			inside(t, "name "+h.Name.Text, h.Span, h.Name.Span)
		}
		checkBlock(t, h.Block, h.Span, text)
		if f.DeclAt(h.Start+1) == nil && h.Len() > 0 {
			t.Fatalf("no declaration at %d", h.Start+1)
		}
		at = h.End
	}
	for i, tok := range f.Tokens {
		if i > 0 && tok.Start < f.Tokens[i-1].End {
			t.Fatalf("token %d overlaps", i)
		}
	}
	broken := false
	for _, d := range f.Decls {
		broken = broken || d.Header().Broken
	}
	if broken && len(f.Mistakes) == 0 {
		t.Fatalf("broken, but no mistake is reported")
	}
}

func FuzzParse(f *testing.F) {
	names, err := filepath.Glob("testdata/*/*.hame")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
		for line := range strings.Lines(string(text)) {
			f.Add(line)
		}
	}
	f.Fuzz(func(t *testing.T, text string) { sound(t, text) })
}

// Harness words in any order are read without harm.
func TestSoundTrees(t *testing.T) {
	words := strings.Split("harness zone place bundle wire load mode part use require allow led a b.in x1.2 auto on in is because until "+
		"-> , ; { } / % .. < <= 1 2.5 mm2 m V AWG 1/4 5. 2027-05-31 # \" \"t\" $ é red/blue practice", " ")
	piece := rapid.SampledFrom(append(words, "\n", "\n", "\r\n", "\n  "))
	rapid.Check(t, func(t *rapid.T) {
		sound(t, strings.Join(rapid.SliceOf(piece).Draw(t, "pieces"), " "))
	})
}
