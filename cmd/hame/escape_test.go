package main

import (
	"os"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// What was typed, and names of files, cannot move the cursor of a terminal, set
// its colours, or look like a line of the command's own. (A terminal takes ESC,
// 1b, for the start of a command: ECMA-48, from memory.)
func TestNamesCannotUpsetATerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	const word = "no\x1b[31m\nhame: pe\xff\u202e"
	for _, args := range [][]string{
		{word},
		{word + ".hame"},
		{"help", word},
		{"version", word},
		{"check", word},
		{"check", "--" + word, "x"},
		{"check", "--format", word, "x"},
		{"check", "--on", word, "-"},
		{"rules", word},
		{"rules", "--practice", word},
		{"fmt", word},
		{"fmt", word + "/"},
		{"why", word},
		{"why", word, "-"},
		{"why", "x", "--mode", word, "-"},
		{"why", "x", word},
		{"readings", word},
		{"readings", word, "-"},
		{"readings", "-", word},
	} {
		status, out, err := runWith(t, "harness h { system 12 V }\nground chassis x\n", args...)
		if status != statusFailed || out != "" {
			t.Errorf("%q: status %d, output %q", args, status, out)
		}
		tame(t, args, err)
		for line := range strings.Lines(err) {
			if strings.HasPrefix(line, "hame: pe") {
				t.Errorf("%q: what was typed starts a line: %q", args, err)
			}
		}
	}
}

func TestFileNamesCannotUpsetATerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	names := map[string]string{
		"a\x1b[31m.hame": `a\x1b[31m.hame`,
		"b\nfake.hame":   `b\nfake.hame`,
		"c\xff.hame":     `c\xff.hame`,
	}
	for name := range names {
		if err := os.WriteFile(name, []byte("harness   h { system 12 V }\nweir\n"), 0o644); err != nil {
			t.Skipf("this system has no such names: %v", err)
		}
	}
	for _, args := range [][]string{
		{"fmt", "--check", "."},
		{"fmt", "--diff", "."},
		{"check", "."},
		{"check", "--format", "line", "."},
		{"check", "--format", "junit", "."},
		{"why", "w1"},
	} {
		_, out, err := runWith(t, "", args...)
		tame(t, args, out+err)
		for name, shown := range names {
			if !strings.Contains(out+err, shown) {
				t.Errorf("%v: %q is not shown as %s: %q", args, name, shown, out+err)
			}
		}
	}
}

func tame(t *testing.T, args []string, text string) {
	t.Helper()
	isWild := func(r rune) bool { return unicode.IsControl(r) && r != '\n' || unicode.Is(unicode.Cf, r) }
	if strings.ContainsFunc(text, isWild) || !utf8.ValidString(text) {
		t.Errorf("%q: raw bytes come out: %q", args, text)
	}
}
