package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func written(t *testing.T, text string, mode os.FileMode) (string, target) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.hame")
	if err := os.WriteFile(path, []byte(text), mode); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
	file, err := targetOf(path)
	if err != nil {
		t.Fatal(err)
	}
	return path, file
}

// alone checks the file's text and that nothing lies beside it.
func alone(t *testing.T, path, want string) {
	t.Helper()
	if text, err := os.ReadFile(path); string(text) != want {
		t.Errorf("it holds %q (%v), want %q", text, err, want)
	}
	if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) != 1 {
		t.Errorf("%d files in the folder: %v", len(entries), entries)
	}
}

func TestReplaceKeepsTheMode(t *testing.T) {
	for _, mode := range []os.FileMode{0o644, 0o600, 0o664} {
		path, file := written(t, "old", mode)
		if err := file.replace("new"); err != nil {
			t.Fatal(err)
		}
		alone(t, path, "new")
		if info, _ := os.Stat(path); info.Mode().Perm() != mode {
			t.Errorf("mode %v becomes %v", mode, info.Mode().Perm())
		}
	}
}

// A file that was written to in between is not overwritten.
func TestReplaceSeesOthers(t *testing.T) {
	path, file := written(t, "old", 0o644)
	if err := os.WriteFile(path, []byte("by hand"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := file.replace("new"); !errors.Is(err, errChanged) || !strings.Contains(err.Error(), "a.hame` stays as it was") {
		t.Errorf("%v", err)
	}
	alone(t, path, "by hand")

	path, file = written(t, "old", 0o644)
	if err := os.Chtimes(path, time.Time{}, time.Now().Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if err := file.replace("new"); !errors.Is(err, errChanged) {
		t.Errorf("%v", err)
	}
	alone(t, path, "old")
}

// A file that is gone is not made again.
func TestReplaceOfNothing(t *testing.T) {
	path, file := written(t, "old", 0o644)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := file.replace("new"); err == nil {
		t.Error("it was written")
	}
	if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) != 0 {
		t.Errorf("left behind: %v", entries)
	}
}

// A file that may not be written stays, though its folder would let it be
// replaced.
func TestReplaceKeepsToTheMode(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write everything")
	}
	path, file := written(t, "old", 0o444)
	if err := file.replace("new"); err == nil || !strings.Contains(err.Error(), "may not be written") {
		t.Errorf("%v", err)
	}
	alone(t, path, "old")
}
