package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	format "hame/fmt"
	"hame/lang/source"
)

// TestDiffApplies: what --diff prints is a patch in the sense of the standard
// tool (POSIX patch), and gives what the formatter gives.
func TestDiffApplies(t *testing.T) {
	if _, err := exec.LookPath("patch"); err != nil {
		t.Skip("no patch on this machine")
	}
	var b strings.Builder
	for i := range 60 {
		b.WriteString("wire w1 a.pos->b.pos 1 mm2 red # n\n\n"[:35+i%2] + "\n# spaced by hand\n\n")
	}
	t.Chdir(t.TempDir())
	if err := os.WriteFile("t.hame", []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	want, err := format.Source(source.New("t.hame", b.String()))
	if err != nil || want == b.String() {
		t.Fatalf("nothing to format: %v", err)
	}
	cmd := exec.Command("patch", "-p0", "--fuzz=0", filepath.Base("t.hame"))
	cmd.Stdin = strings.NewReader(unified("t.hame", b.String(), want))
	if out, err := cmd.CombinedOutput(); err != nil || strings.Contains(string(out), "offset") {
		t.Fatalf("patch: %v\n%s", err, out)
	}
	got, err := os.ReadFile("t.hame")
	if err != nil || string(got) != want {
		t.Errorf("patching gives another text than formatting")
	}
}
