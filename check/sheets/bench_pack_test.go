package sheets

import (
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
)

// packs keeps what was checked: many tests ask for the same.
var packs = map[string]*Pack{}

// packOf checks one text.
func packOf(t *testing.T, name, text string) *Pack {
	t.Helper()
	if p := packs[text]; p != nil {
		return p
	}
	run := check.File(source.New(name, text), check.Options{Today: "2026-01-01", Read: fromExamples})
	if run.Harness == nil {
		t.Fatalf("%s: no harness", name)
	}
	packs[text] = NewPack(run, Options{Date: "2027-05-31"})
	return packs[text]
}

var examples = os.DirFS("../../examples")

func fromExamples(name string) (string, error) {
	text, err := fs.ReadFile(examples, name)
	return string(text), err
}

// under calls for every harness below a folder of the examples.
func under(t *testing.T, folder string, f func(*testing.T, *Pack)) {
	err := fs.WalkDir(examples, folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != ".hame" {
			return err
		}
		text, err := fromExamples(name)
		if err != nil {
			return err
		}
		if strings.Contains(text, "\nharness ") || strings.HasPrefix(text, "harness ") {
			t.Run(name, func(t *testing.T) { f(t, packOf(t, name, text)) })
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// everyExample calls for every sound example.
func everyExample(t *testing.T, f func(*testing.T, *Pack)) {
	for _, folder := range []string{"sap_hauler", "forwarder", "launch", "trailer", "library"} {
		under(t, folder, f)
	}
}
