package pages_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hame/check/pages"
	"hame/check/rules"
)

var update = flag.Bool("update", false, "write the pages anew")

// TestPagesAreFresh: the committed pages are what the rules give, and there is
// none besides.
func TestPagesAreFresh(t *testing.T) {
	want := map[string]string{"README.md": pages.Index()}
	for _, r := range rules.All() {
		want[pages.Name(r.Name)] = pages.Page(r)
	}
	have, err := filepath.Glob("*.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range have {
		if _, ok := want[name]; !ok {
			stale(t, name, "")
		}
	}
	for name, text := range want {
		if old, err := os.ReadFile(name); err != nil || string(old) != text {
			stale(t, name, text)
		}
	}
}

func stale(t *testing.T, name, text string) {
	t.Helper()
	switch {
	case !*update:
		t.Errorf("%s is stale: go test ./check/pages -update", name)
	case text == "":
		if err := os.Remove(name); err != nil {
			t.Error(err)
		}
	default:
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Error(err)
		}
	}
}

// TestPagesHoldTogether: every link leads to a page, and no text breaks its
// table.
func TestPagesHoldTogether(t *testing.T) {
	for _, r := range rules.All() {
		page := pages.Page(r)
		for _, name := range r.Related {
			if rules.Find(name) == nil {
				t.Errorf("%s leads to %s, which is no rule", r.Name, name)
			}
		}
		if strings.Count(page, "```")%2 != 0 {
			t.Errorf("%s has an open block", r.Name)
		}
	}
	if n := strings.Count(pages.Index(), "\n| ["); n != len(rules.All()) {
		t.Errorf("the index has %d rules of %d", n, len(rules.All()))
	}
}
