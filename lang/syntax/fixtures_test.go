package syntax_test

import (
	"path/filepath"
	"testing"

	"hame/lang/syntax"
	"hame/lang/wanted"
)

// Each fixture says on its own lines what is wrong with them.
func TestFixtures(t *testing.T) {
	names, err := filepath.Glob("testdata/*/*.hame")
	if err != nil || len(names) < 5 {
		t.Fatalf("%d fixtures, %v", len(names), err)
	}
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			f := syntax.Parse(read(t, name))
			wanted.Check(t, f.Source, f.Mistakes)
			for _, m := range f.Mistakes {
				if m.Rule != syntax.Rule || m.Message == "" || m.At.Start > m.At.End || m.At.End > len(f.Source.Text) {
					t.Errorf("%+v", m)
				}
			}
		})
	}
}
