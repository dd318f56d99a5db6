package syntax

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/lang/source"
)

// texts are the harnesses that ship, sound and faulty, and this package's own.
func texts(tb testing.TB) []string {
	var list []string
	for _, pattern := range []string{"testdata/*/*.hame", "../../examples/*/*.hame", "../parts/*.hame"} {
		names, err := filepath.Glob(pattern)
		if err != nil || len(names) == 0 {
			tb.Fatalf("%s: %d files, %v", pattern, len(names), err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				tb.Fatal(err)
			}
			list = append(list, string(text))
		}
	}
	return list
}

// scraps are what is typed, pasted and lost by hands that slip.
var scraps = []string{
	"", "", " ", "\n", "\n\n", "\t", "x", "7", ".", ",", "->", " -> ", "{", "}", " { ", ";", "#", "# a note\n", "\"", "\\",
	"$", "\r\n", "\r", "é", "Ω", "-", "/", "%", "<=", "5.", "2027-05-31", "wire", "\nwire w a -> b 1 mm2\n", "zone z { ambient 1..2 degC }\n",
	"place p in ", "load led", "mode m", "existing", " in ", "\xff", "\x00", "\uFEFF", "note \"x\"",
}

// edited is a text with a stretch of it replaced: by a scrap, by another
// stretch, or by nothing.
func edited(rng *rand.Rand, text string) string {
	at := rng.IntN(len(text) + 1)
	end := at
	switch rng.IntN(4) {
	case 0:
		end = min(len(text), at+rng.IntN(4))
	case 1:
		end = min(len(text), at+rng.IntN(60))
	}
	by := scraps[rng.IntN(len(scraps))]
	if rng.IntN(8) == 0 && len(text) > 0 {
		from := rng.IntN(len(text))
		by = text[from:min(len(text), from+rng.IntN(120))]
	}
	return text[:at] + by + text[end:]
}

// What is read with the help of the text before is what is read from scratch,
// down to what the next reading may take over. Each text is edited over and over,
// so that a mistake of one reading would be carried into the next, and now and
// then set right again, as by an undo.
func TestAgainIsParse(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	rounds, kept, all := 60, 0, 0
	if testing.Short() {
		rounds = 10
	}
	for _, first := range texts(t) {
		text, before := first, Parse(source.New("t.hame", first))
		for range rounds {
			was := text
			if text = edited(rng, text); rng.IntN(20) == 0 {
				text = first
			}
			f := source.New("t.hame", text)
			want, got := Parse(f), Again(before, f)
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("after an edit of\n%s\nthe text\n%s\nis read as another:\n%s", was, text, difference(want, got))
			}
			kept, all = kept+shared(before, got), all+len(got.Decls)
			before = got
		}
	}
	if kept*4 < all {
		t.Errorf("%d of %d declarations were taken over", kept, all)
	}
}

// A large text is read from two places at once, and what comes of it is what one
// reader reads.
func TestReadAheadIsParse(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 13))
	for _, one := range texts(t) {
		text := strings.Repeat(one+"\n", 1+worthHelp/(len(one)+1))
		for range 6 {
			f := source.New("t.hame", text)
			alone := &reader{src: f, text: text, out: &File{Source: f}, past: newPast(&File{Source: source.New("", "")}, text)}
			if want, got := alone.read(), Parse(f); !reflect.DeepEqual(got, want) {
				t.Fatalf("the text\n%s\nis read as another:\n%s", text, difference(want, got))
			}
			text = edited(rng, text)
		}
	}
}

// difference is where two trees part, declaration by declaration.
func difference(want, got *File) string {
	show := cmp.AllowUnexported(File{}, piece{}, source.File{})
	return cmp.Diff(want, got, show)
}

// shared counts the declarations that two trees have in common without a copy.
func shared(a, b *File) int {
	own := map[Decl]bool{}
	for _, d := range a.Decls {
		own[d] = true
	}
	n := 0
	for _, d := range b.Decls {
		if own[d] {
			n++
		}
	}
	return n
}

// An edit of one statement has one statement read.
func TestOneEditReadsOneStatement(t *testing.T) {
	text := "harness h { system 12 V }\n" + strings.Repeat("zone z { ambient 1..2 degC }\n", 50)
	at := strings.LastIndex(text[:len(text)/2], "1..2")
	r := &reader{text: text[:at] + "0" + text[at:]}
	r.src = source.New("t.hame", r.text)
	r.out = &File{Source: r.src}
	before := Parse(source.New("t.hame", text))
	r.past = newPast(before, r.text)
	got := r.read()
	if n := shared(before, got); n != 24 {
		t.Errorf("%d declarations before the edit are shared", n)
	}
	if moved := got.Decls[40].Header(); moved.Start != before.Decls[40].Header().Start+1 {
		t.Errorf("a declaration behind it stands at %d", moved.Start)
	}
}

// The tree that was taken over from stays as it was, whatever comes after.
func TestAgainLeavesThePastAlone(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for _, text := range texts(t) {
		f := source.New("t.hame", text)
		before := Parse(f)
		for range 20 {
			Again(before, source.New("t.hame", edited(rng, text)))
		}
		if !reflect.DeepEqual(before, Parse(f)) {
			t.Fatalf("the tree of\n%s\nwas changed", text)
		}
	}
}

func TestAlike(t *testing.T) {
	long := strings.Repeat("abcdefg ", 200)
	for _, c := range []struct {
		a, b       string
		head, tail int
	}{
		{"", "", 0, 0},
		{"ab", "ab", 2, 0},
		{"ab", "axb", 1, 1},
		{"aa", "aaa", 2, 0},
		{"abc", "xyz", 0, 0},
		{long + "1" + long, long + "22" + long, len(long), len(long)},
		{long, long + long, len(long), 0},
	} {
		if head, tail := Alike(c.a, c.b); head != c.head || tail != c.tail {
			t.Errorf("%.10q and %.10q: %d and %d, not %d and %d", c.a, c.b, head, tail, c.head, c.tail)
		}
	}
}
