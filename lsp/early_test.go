package lsp_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"hame/lsp"
	"hame/lsp/core"
)

// TestMain has tests hear what is found once all is known, so that it does not
// hang on how fast the machine is.
func TestMain(m *testing.M) {
	lsp.EarlyAfter(time.Hour)
	os.Exit(m.Run())
}

// early has a test or a benchmark hear what is known early.
func early(t testing.TB, after time.Duration) {
	lsp.EarlyAfter(after)
	t.Cleanup(func() { lsp.EarlyAfter(time.Hour) })
}

// saidOf are findings by their rules and words, places left out.
func saidOf(list []any) map[string]bool {
	said := map[string]bool{}
	for _, d := range list {
		d := d.(map[string]any)
		said[fmt.Sprint(d["code"], d["message"])] = true
	}
	return said
}

// TestNothingFlickers: what was found before an edit and is found after it is
// never taken back between, and what is found early is there once all is known.
func TestNothingFlickers(t *testing.T) {
	early(t, 0)
	e := start(t, t.TempDir(), "utf-8", "")
	defer func() { _ = e.leave() }()
	e.heard = map[string][][]any{}
	e.openText("a.hame", generated(100))
	e.settled("a.hame")
	before := saidOf(e.findings("a.hame"))
	if len(before) < 3 {
		t.Fatalf("%d findings", len(before))
	}
	for _, step := range []struct{ at, put string }{
		{"\nload led l3", " # a note"},
		{"\nload led l3", "\n\n"},
		{"big {", ` title "x"; `},
		{" W; least 9 V; polarity strict; sealed IP67 }\nwire a2", "5"},
		{" mm2 red 0.2 m\nwire c7", "0"},
		{" m\nwire e7", "1"},
		{"\nmode run", "\nload led more"},
		{"\nmode run", "\nrequire main volts >= 15 V"},
		{"\nmode run", "\nwire x y -> z 1 mm2"},
		{" l4.pos", "}"},
	} {
		at := strings.Index(e.texts["a.hame"], step.at)
		if at < 0 {
			t.Fatalf("%q stands nowhere", step.at)
		}
		e.mu.Lock()
		e.heard["a.hame"] = nil
		e.mu.Unlock()
		e.edit("a.hame", at, at, step.put)
		e.settled("a.hame")
		after := saidOf(e.findings("a.hame"))
		e.mu.Lock()
		heard := e.heard["a.hame"]
		e.mu.Unlock()
		for n, list := range heard {
			said := saidOf(list)
			for what := range before {
				if after[what] && !said[what] {
					t.Errorf("%q: publication %d of %d takes back what still holds: %s", step.put, n+1, len(heard), what)
				}
			}
		}
		before = after
	}
}

// TestEarlyIsEarly: of a text that takes long to check, what cannot be read is
// said at once, and again once all is known.
func TestEarlyIsEarly(t *testing.T) {
	early(t, core.EarlyAfter)
	e := start(t, t.TempDir(), "utf-8", "")
	defer func() { _ = e.leave() }()
	e.heard = map[string][][]any{}
	e.openText("a.hame", generated(1000)+"lamp x\n")
	e.until("both publications", func() bool { return len(e.heard["a.hame"]) > 1 })
	e.settled("a.hame")
	e.mu.Lock()
	defer e.mu.Unlock()
	heard := e.heard["a.hame"]
	if len(heard) != 2 || len(heard[0]) == 0 || len(heard[0]) >= len(heard[1]) {
		t.Fatalf("%d publications", len(heard))
	}
	for what := range saidOf(heard[0]) {
		if !saidOf(heard[1])[what] {
			t.Errorf("said early alone: %s", what)
		}
	}
}
