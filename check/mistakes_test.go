package check_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// mistaken checks a harness that lies beside a few libraries.
func mistaken(text string) []finding.Finding {
	run := check.File(source.New("sound.hame", text), check.Options{Today: "2026-01-01", Read: func(name string) (string, error) {
		switch name {
		case "whole.hame":
			return "harness other { system 12 V }\n", nil
		case "folder.hame":
			return "", fs.ErrInvalid
		}
		return "", fs.ErrNotExist
	}})
	return run.Findings
}

// TestOneMistakeOneFinding: a sound harness with one mistake in it has one
// finding, the one that says the mistake. The mistakes are those that were made
// in reviews: each line of the list is a rule, what stands in the sound harness
// and what stands there in its place.
func TestOneMistakeOneFinding(t *testing.T) {
	sound, list := text(t, "testdata/sound.hame"), text(t, "testdata/mistakes.txt")
	for _, f := range mistaken(sound) {
		t.Errorf("the sound harness: %s: %s [%s]", f.Severity, f.Message, f.Rule)
	}
	made := 0
	for line := range strings.Lines(list) {
		line = strings.ReplaceAll(strings.TrimSuffix(line, "\n"), `\n`, "\n")
		rule, change, listed := strings.Cut(line, " | ")
		if !listed {
			continue
		}
		made++
		was, is, _ := strings.Cut(change, " ==> ")
		if strings.Count(sound, was) != 1 {
			t.Errorf("%q stands %d times in the sound harness", was, strings.Count(sound, was))
			continue
		}
		found := mistaken(strings.Replace(sound, was, is, 1))
		if len(found) != 1 || found[0].Rule != rule {
			t.Errorf("%q in place of %q gives %d findings, want one of %s", is, was, len(found), rule)
			for _, f := range found {
				t.Logf("    %s: %s [%s]", f.Severity, f.Message, f.Rule)
			}
		}
	}
	if made < 100 {
		t.Errorf("only %d mistakes are listed", made)
	}
}

func text(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
