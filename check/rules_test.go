package check_test

import (
	"io/fs"
	"testing"

	"hame/check"
	"hame/check/rules"
	"hame/lang/source"
	"hame/lang/wanted"
)

// TestRuleExamples runs every rule's documented examples: the bad one raises
// it where its comment says and nothing else, the good one is clean.
func TestRuleExamples(t *testing.T) {
	for _, r := range rules.All() {
		t.Run(r.Name, func(t *testing.T) {
			bad := example(r.Bad, r.BadWith)
			for _, f := range bad.Files {
				wanted.Check(t, f, bad.Findings)
			}
			if good := example(r.Good, r.GoodWith); len(good.Findings) > 0 {
				t.Errorf("the good example has findings: %v", texts(good))
			}
		})
	}
}

func example(text string, with map[string]string) *check.Run {
	return check.File(source.New("example.hame", text), check.Options{
		Today: "2026-01-01",
		Read: func(path string) (string, error) {
			if text, ok := with[path]; ok {
				return text, nil
			}
			return "", fs.ErrNotExist
		},
	})
}

func texts(run *check.Run) []string {
	var list []string
	for _, f := range run.Findings {
		list = append(list, f.Severity.String()+": "+f.Message+" ["+f.Rule+"]")
	}
	return list
}

// TestRulesAreDocumented: nothing of a rule's page may be missing.
func TestRulesAreDocumented(t *testing.T) {
	for _, r := range rules.All() {
		for what, text := range map[string]string{
			"summary": r.Summary, "why": r.Why, "needs": r.Needs, "since": r.Since, "bad": r.Bad, "good": r.Good,
		} {
			if text == "" {
				t.Errorf("%s has no %s", r.Name, what)
			}
		}
		for _, name := range r.Related {
			if rules.Find(name) == nil {
				t.Errorf("%s is related to %s, which is no rule", r.Name, name)
			}
		}
	}
}
