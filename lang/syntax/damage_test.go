package syntax_test

import (
	"testing"

	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/token"
)

// damaged reads the whole harness with one token's text replaced.
func damaged(f *syntax.File, t token.Token, by string) *syntax.File {
	text := f.Source.Text[:t.Start] + " " + by + " " + f.Source.Text[t.End:]
	return syntax.Parse(source.New("t.hame", text))
}

// One token lost or spoiled, wherever it stands, is one mistake: at most one
// finding, and at most one declaration less. A spoiled closing brace is two
// mistakes, the missing brace and what stands in its place.
func TestOneMistakeIsOneFinding(t *testing.T) {
	f := syntax.Parse(read(t, "testdata/good/sap_hauler.hame"))
	for _, tok := range f.Tokens {
		for _, by := range []string{"", "$", "5.", "->"} {
			most := 1
			if tok.Kind == token.RBrace && by != "" {
				most = 2
			}
			got := damaged(f, tok, by)
			if len(got.Mistakes) > most || len(got.Decls) < len(f.Decls)-1 {
				line := f.Source.Position(tok.Start).Line
				t.Errorf("line %d, %q for %q: %d declarations less", line, by, f.TokenText(tok), len(f.Decls)-len(got.Decls))
				for _, m := range got.Mistakes {
					t.Errorf("    line %d: %s", got.Source.Position(m.At.Start).Line, m.Message)
				}
			}
		}
	}
}

// A harness that is being written ends anywhere. What stands before is read
// without a mistake; only its last statement can be told to be unfinished.
func TestHalfWrittenHarness(t *testing.T) {
	f := syntax.Parse(read(t, "testdata/good/sap_hauler.hame"))
	for _, tok := range f.Tokens {
		got := syntax.Parse(source.New("t.hame", f.Source.Text[:tok.Start]))
		whole := 0
		for _, d := range f.Decls {
			if d.Header().End <= tok.Start {
				whole++
			}
		}
		if len(got.Mistakes) > 2 || len(got.Decls) < whole {
			t.Errorf("up to line %d: %d of %d declarations, %d mistakes", f.Source.Position(tok.Start).Line, len(got.Decls), whole, len(got.Mistakes))
		}
	}
}
