package syntax_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/lang/source"
	"hame/lang/syntax"
)

func read(t testing.TB, name string) *source.File {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return source.New(filepath.ToSlash(name), string(text))
}

// The whole harness that the language's description ends with.
func TestWholeHarness(t *testing.T) {
	f := syntax.Parse(read(t, "testdata/good/sap_hauler.hame"))
	for _, m := range f.Mistakes {
		t.Errorf("line %d: %s", f.Source.Position(m.At.Start).Line, m.Message)
	}
	counts := map[string]int{}
	for _, d := range f.Decls {
		counts[fmt.Sprintf("%T", d)[len("*syntax."):]]++
		if d.Header().Broken {
			t.Errorf("%s is broken", d.Header().Name.Text)
		}
	}
	want := map[string]int{
		"Harness": 1, "Zone": 3, "Places": 3, "Bundle": 3, "Device": 14, "Wire": 17, "Mode": 2, "Require": 2,
	}
	if diff := cmp.Diff(want, counts); diff != "" {
		t.Errorf("declarations (-want +got)\n%s", diff)
	}
}

func BenchmarkParse(b *testing.B) {
	f := read(b, "testdata/good/sap_hauler.hame")
	b.SetBytes(int64(len(f.Text)))
	for b.Loop() {
		if got := syntax.Parse(f); len(got.Mistakes) > 0 {
			b.Fatal(got.Mistakes[0].Message)
		}
	}
}

// BenchmarkAgain reads a text in which one keystroke has changed a statement in
// its midst.
func BenchmarkAgain(b *testing.B) {
	one := read(b, "testdata/good/sap_hauler.hame").Text
	before := syntax.Parse(source.New("t.hame", strings.Repeat(one, 1+(400<<10)/len(one))))
	text := before.Source.Text
	at := len(text)/2 + strings.Index(text[len(text)/2:], "mm2")
	after := source.New("t.hame", text[:at-1]+"1"+text[at-1:])
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		syntax.Again(before, after)
	}
}
