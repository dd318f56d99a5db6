package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/mattn/go-isatty"
)

// A PDF would only disturb a terminal; what to do instead is said.
func TestNoPDFToATerminal(t *testing.T) {
	terminal, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skip("this system gives no terminal to test with")
	}
	defer terminal.Close()
	if !isatty.IsTerminal(terminal.Fd()) {
		t.Skip("this system's terminal is known by something else")
	}
	const harness = "../../examples/trailer"
	var out, errs bytes.Buffer
	if status := run([]string{"sheet", "wires", harness, "--format", "pdf"}, strings.NewReader(""), terminal, &errs, noEnv); status != statusFailed {
		t.Errorf("status %d", status)
	}
	if !strings.Contains(errs.String(), "-o FILE.pdf") {
		t.Errorf("it says %q", errs.String())
	}
	if status := run([]string{"sheet", "wires", harness, "--format", "pdf"}, strings.NewReader(""), &out, &errs, noEnv); status != statusClean || !strings.HasPrefix(out.String(), "%PDF-") {
		t.Errorf("into a pipe: status %d, %.20q", status, out.String())
	}
}

// What cannot be written leaves what was there, and nothing beside it.
func TestPaperStaysWhereItCannotBeReplaced(t *testing.T) {
	dir := t.TempDir()
	kept := filepath.Join(dir, "a.txt")
	if err := os.WriteFile(kept, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(dir, "b.txt"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := writeInto(dir, []paper{{"a.txt", []byte("new")}, {"b.txt", []byte("new")}}); err == nil {
		t.Error("a folder was replaced")
	}
	if text, err := os.ReadFile(kept); err != nil || string(text) != "old" {
		t.Errorf("%q, %v", text, err)
	}
	for _, name := range []string{"../out.txt", "/out.txt"} {
		if err := writeInto(dir, []paper{{name, []byte("new")}}); err == nil {
			t.Errorf("%s was written from a folder that it is not in", name)
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 2 {
		t.Errorf("%v, %v", left, err)
	}
}
