package wiring_test

import (
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"testing"

	"hame/check"
	"hame/check/draw"
	"hame/check/draw/wiring"
	"hame/lang/source"
)

// harnesses lists the harness files below a folder of the examples.
func harnesses(t testing.TB, folder string) []string {
	var list []string
	err := fs.WalkDir(os.DirFS("../../../examples"), folder, func(name string, d fs.DirEntry, err error) error {
		if err == nil && path.Ext(name) == ".hame" {
			list = append(list, name)
		}
		return err
	})
	if err != nil || len(list) == 0 {
		t.Fatal("no examples:", err)
	}
	return list
}

func checked(t testing.TB, name string) *check.Run {
	root := os.DirFS("../../../examples")
	read := func(name string) (string, error) {
		text, err := fs.ReadFile(root, name)
		return string(text), err
	}
	text, err := read(name)
	if err != nil {
		t.Fatal(err)
	}
	return check.File(source.New(name, text), check.Options{Today: "2026-01-01", Read: read})
}

// TestPages writes the examples' sheets into the folder that HAME_WIRING names.
func TestPages(t *testing.T) {
	dir := os.Getenv("HAME_WIRING")
	if dir == "" {
		t.Skip("HAME_WIRING names no folder")
	}
	for _, name := range harnesses(t, ".") {
		run := checked(t, name)
		if run.Harness == nil {
			continue
		}
		for _, p := range wiring.Pictures(run, wiring.Options{Mode: os.Getenv("HAME_MODE"), Paper: os.Getenv("HAME_PAPER")}) {
			f, err := os.Create(filepath.Join(dir, fmt.Sprintf("%s-%s.svg", run.Harness.Name, p.Name)))
			if err != nil {
				t.Fatal(err)
			}
			if err := draw.SVG(f, p); err != nil {
				t.Fatal(err)
			}
			f.Close()
		}
	}
}
