package check_test

import (
	"cmp"
	"io/fs"
	"os"
	"slices"
	"testing"

	"hame/check"
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/source"
)

// TestEveryFix applies every fix of every example and rule page and checks
// again: its finding must be gone, and none may be there that was not before.
func TestEveryFix(t *testing.T) {
	applied := 0
	for _, r := range rules.All() {
		applied += tryFixes(t, r.Name, r.Bad, r.BadWith, example)
		applied += tryFixes(t, r.Name, r.Good, r.GoodWith, example)
	}
	root := os.DirFS("../examples")
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		applied += tryFixes(t, name, string(text), nil, func(text string, _ map[string]string) *check.Run {
			return check.File(source.New(name, text), check.Options{Today: "2026-01-01", Read: func(name string) (string, error) {
				text, err := fs.ReadFile(root, name)
				return string(text), err
			}})
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if applied < 20 {
		t.Errorf("only %d fixes were tried: the examples have more", applied)
	}
	t.Logf("%d fixes applied", applied)
}

// tryFixes applies the fixes of one text, each by itself, and counts them.
func tryFixes(t *testing.T, name, text string, with map[string]string, judge func(string, map[string]string) *check.Run) int {
	before := judge(text, with)
	count := 0
	for _, f := range before.Findings {
		if f.Fix == nil || !within(before.Files[0], f.Fix) {
			continue
		}
		count++
		after := judge(applyFix(text, f.Fix), with)
		if has(after.Findings, f) {
			t.Errorf("%s: the fix %q leaves %s on %s", name, f.Fix.Title, f.Rule, f.Subject)
		}
		for _, g := range after.Findings {
			if !has(before.Findings, g) && g.Severity > finding.Advice {
				t.Errorf("%s: the fix %q of %s brings %s: %s", name, f.Fix.Title, f.Rule, g.Rule, g.Message)
			}
		}
	}
	return count
}

func within(f *source.File, fix *finding.Fix) bool {
	return !slices.ContainsFunc(fix.Edits, func(e finding.Edit) bool { return e.File != f })
}

func has(list []finding.Finding, f finding.Finding) bool {
	return slices.ContainsFunc(list, func(g finding.Finding) bool {
		return g.Rule == f.Rule && g.Subject == f.Subject && g.Severity >= f.Severity
	})
}

// applyFix applies a fix's edits, the last in the text first.
func applyFix(text string, fix *finding.Fix) string {
	edits := slices.Clone(fix.Edits)
	slices.SortFunc(edits, func(a, b finding.Edit) int { return cmp.Compare(b.Start, a.Start) })
	for _, e := range edits {
		text = text[:e.Start] + e.Text + text[e.End:]
	}
	return text
}
