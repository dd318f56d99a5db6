package parts_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"

	"hame/lang/harness"
	"hame/lang/parts"
	"hame/lang/source"
	"hame/lang/syntax"
)

// TestLibrariesAreSound: every library binds alone and declares parts and
// nothing else, each described by the comment above it or above its group.
func TestLibrariesAreSound(t *testing.T) {
	names := parts.Names()
	if len(names) < 5 {
		t.Fatalf("libraries: %v", names)
	}
	for _, name := range names {
		text, err := parts.Read(strings.TrimPrefix(name, parts.Prefix))
		if err != nil {
			t.Fatal(err)
		}
		tree := syntax.Parse(source.New(name, text))
		for _, f := range harness.Bind(tree, harness.Options{}).Findings {
			t.Errorf("%s: %s [%s]", name, f.Message, f.Rule)
		}
		described, line := false, 0
		for _, d := range tree.Decls {
			at := tree.Source.Position(d.Header().Start).Line
			described = d.Header().Doc != "" || described && at == line+1
			line = tree.Source.Position(d.Header().End).Line
			if _, ok := d.(*syntax.Part); !ok {
				t.Errorf("%s declares %s %s", name, d.Header().Keyword.Text, d.Header().Name.Text)
			}
			if !described {
				t.Errorf("%s: part %s is not described", name, d.Header().Name.Text)
			}
		}
	}
	if _, err := parts.Read("../parts"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("reading outside: %v", err)
	}
}

// TestPartsSayWhatTheyOffer: a wire to any terminal of any part has a terminal of
// its own to be crimped on.
func TestPartsSayWhatTheyOffer(t *testing.T) {
	for _, name := range parts.Names() {
		text, err := parts.Read(strings.TrimPrefix(name, parts.Prefix))
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		all.WriteString("harness all { system 24 V }\n")
		all.WriteString(text)
		for _, d := range syntax.Parse(source.New(name, text)).Decls {
			if p, ok := d.(*syntax.Part); ok {
				all.WriteString("\n" + p.Family.Text + " " + p.Name.Text + " the_" + p.Name.Text + " { }")
			}
		}
		h := harness.Bind(syntax.Parse(source.New(name, all.String()+"\n")), harness.Options{}).Harness
		if len(h.Devices) == 0 {
			t.Errorf("%s: no device was made of its parts", name)
		}
		for _, d := range h.Devices {
			for _, terminal := range d.Terminals {
				if terminal.Fitting.Hardware() == "" {
					t.Errorf("%s: %s does not say what it offers", name, terminal.FullName())
				}
			}
		}
	}
}
