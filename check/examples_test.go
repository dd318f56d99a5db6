package check_test

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
	"hame/lang/wanted"
)

// under checks every harness below a folder of the examples.
func under(t *testing.T, folder string, judge func(*testing.T, *check.Run)) {
	root := os.DirFS("../examples")
	err := fs.WalkDir(root, folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != ".hame" {
			return err
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		t.Run(name, func(t *testing.T) {
			judge(t, check.File(source.New(name, string(text)), check.Options{Today: "2026-01-01", Read: func(name string) (string, error) {
				text, err := fs.ReadFile(root, name)
				return string(text), err
			}}))
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestExamplesAreClean: nothing at warning level or above, nothing open.
func TestExamplesAreClean(t *testing.T) {
	for _, e := range examples(t) {
		under(t, e, func(t *testing.T, run *check.Run) {
			for _, f := range run.Findings {
				if f.Severity.String() != "advice" && f.Allowed == nil {
					t.Errorf("%s: %s [%s]", f.Severity, f.Message, f.Rule)
				}
			}
		})
	}
}

func examples(t *testing.T) []string {
	all, err := filepath.Glob("../examples/*")
	if err != nil || len(all) < 5 {
		t.Fatalf("examples: %v, %v", all, err)
	}
	var list []string
	for _, e := range all {
		if name := filepath.Base(e); name != "faulty" && !strings.HasPrefix(name, ".") {
			list = append(list, name)
		}
	}
	return list
}

// TestFaultyExamples: every fault is found where its comment says, and nothing
// else is.
func TestFaultyExamples(t *testing.T) {
	under(t, "faulty", func(t *testing.T, run *check.Run) {
		for _, f := range run.Files {
			wanted.Check(t, f, run.Findings)
		}
	})
}
