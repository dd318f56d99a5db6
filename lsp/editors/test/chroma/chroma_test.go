// Package chroma tries the Chroma lexer with Chroma itself. It is a module of
// its own, so that hame does not depend on it.
package chroma

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/styles"
)

var update = flag.Bool("update", false, "write the snapshot anew")

func lexer(t *testing.T) chroma.Lexer {
	t.Helper()
	l, err := chroma.NewXMLLexer(os.DirFS("../.."), "hame.chroma.xml")
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func tokens(t *testing.T, l chroma.Lexer, text string) []chroma.Token {
	t.Helper()
	it, err := l.Tokenise(nil, text)
	if err != nil {
		t.Fatal(err)
	}
	return it.Tokens()
}

// TestExamples: every text comes back whole, and in a sound one nothing is an
// error or left plain.
func TestExamples(t *testing.T) {
	l, read := lexer(t), 0
	err := filepath.WalkDir("../../../../examples", func(path string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".hame" {
			return err
		}
		read++
		raw, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		var whole strings.Builder
		for _, token := range tokens(t, l, string(raw)) {
			whole.WriteString(token.Value)
			plain := token.Type == chroma.Error || token.Type == chroma.Text
			if plain && !strings.Contains(path, "faulty") {
				t.Errorf("%s: %q is %s", path, token.Value, token.Type)
			}
		}
		if whole.String() != string(raw) {
			t.Errorf("%s does not come back whole", path)
		}
		return nil
	})
	if err != nil || read < 5 {
		t.Fatal(err, read)
	}
}

// TestSample: the types of a text that has everything are those that were
// reviewed.
func TestSample(t *testing.T) {
	raw, err := os.ReadFile("../sample.hame")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, token := range tokens(t, lexer(t), string(raw)) {
		if token.Type != chroma.TextWhitespace && token.Value != "" {
			fmt.Fprintf(&b, "%s\t%s\n", token.Value, token.Type)
		}
	}
	if *update {
		if err := os.WriteFile("sample.types", []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("sample.types")
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("other types than those in sample.types; -update writes it anew:\n%s", b.String())
	}
}

// TestPage: what may stand in a text is escaped in a page, and its words have
// classes.
func TestPage(t *testing.T) {
	it, err := lexer(t).Tokenise(nil, `harness h { title "<script>" }`)
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := html.New(html.WithClasses(true)).Format(&page, styles.Fallback, it); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`<span class="kd">harness</span>`, `<span class="na">title</span>`, "&lt;script&gt;"} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("no %s in %s", want, page.String())
		}
	}
}
