package check_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// FuzzCheck: whatever the text, checking ends, says nothing outside the text,
// in order, and the same the second time.
func FuzzCheck(f *testing.F) {
	for _, text := range exampleTexts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 20_000 {
			t.Skip("only the size is at stake")
		}
		sound(t, text)
	})
}

// TestDamagedExamples does by chance what a hand does by mistake: lines of
// whole harnesses are dropped, doubled, swapped and cut.
func TestDamagedExamples(t *testing.T) {
	texts := exampleTexts(t)
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.SplitAfter(rapid.SampledFrom(texts).Draw(t, "text"), "\n")
		for range rapid.IntRange(1, 4).Draw(t, "times") {
			damage(t, &lines)
		}
		sound(t, strings.Join(lines, ""))
	})
}

func damage(t *rapid.T, lines *[]string) {
	l := *lines
	if len(l) == 0 {
		return
	}
	i, j := rapid.IntRange(0, len(l)-1).Draw(t, "i"), rapid.IntRange(0, len(l)-1).Draw(t, "j")
	switch rapid.SampledFrom([]string{"drop", "double", "swap", "cut"}).Draw(t, "how") {
	case "drop":
		*lines = slices.Delete(l, i, i+1)
	case "double":
		*lines = slices.Insert(l, j, l[i])
	case "swap":
		l[i], l[j] = l[j], l[i]
	case "cut":
		l[i] = l[i][:rapid.IntRange(0, len(l[i])).Draw(t, "at")]
	}
}

// reporter is what testing.T and rapid.T share.
type reporter interface {
	Helper()
	Fatalf(string, ...any)
}

func sound(t reporter, text string) {
	t.Helper()
	first := checkAlone(text)
	for _, f := range first {
		if f.At.File == nil || f.At.Start < 0 || f.At.End < f.At.Start || f.At.End > len(f.At.File.Text) {
			t.Fatalf("%s lies at %v", f.Rule, f.At.Span)
		}
	}
	if !slices.IsSortedFunc(first, finding.Compare) {
		t.Fatalf("findings are out of order")
	}
	if again := checkAlone(text); len(again) != len(first) {
		t.Fatalf("%d findings, then %d", len(first), len(again))
	} else {
		for i := range first {
			if first[i].Message != again[i].Message || first[i].Severity != again[i].Severity {
				t.Fatalf("%q, then %q", first[i].Message, again[i].Message)
			}
		}
	}
}

func checkAlone(text string) []finding.Finding {
	return check.File(source.New("t.hame", text), check.Options{
		Today: "2026-01-01",
		Read:  func(string) (string, error) { return text, nil },
	}).Findings
}

func exampleTexts(t testing.TB) []string {
	var texts []string
	err := filepath.WalkDir("../examples", func(path string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".hame" {
			return err
		}
		text, err := os.ReadFile(path)
		texts = append(texts, string(text))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return texts
}
