package editors_test

import (
	"os"
	"strings"
	"testing"

	"hame/lang/syntax"
)

func read(t *testing.T, path string) string {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

// TestSetupsStartTheServer: every set-up starts the server as the command is
// called.
func TestSetupsStartTheServer(t *testing.T) {
	for _, path := range []string{
		"neovim/hame.lua", "helix/languages.toml", "emacs/hame-mode.el", "vscode/src/extension.ts", "zed/src/lib.rs",
	} {
		text := read(t, path)
		for _, word := range []string{`"hame"`, `"lsp"`} {
			if !strings.Contains(text, word) {
				t.Errorf("%s does not start `hame lsp`: there is no %s", path, word)
			}
		}
	}
}

// TestEmacsKnowsKeywords: the mode, which is written by hand, has the words that
// a statement starts with.
func TestEmacsKnowsKeywords(t *testing.T) {
	mode := read(t, "emacs/hame-mode.el")
	for _, w := range syntax.Keywords() {
		if !strings.Contains(mode, `"`+w+`"`) {
			t.Errorf("`%s` is not in the Emacs mode", w)
		}
	}
}

// TestSetupsIndentAlike: every set-up indents as the formatter does.
func TestSetupsIndentAlike(t *testing.T) {
	for path, line := range map[string]string{
		"neovim/hame.lua":                "options.shiftwidth = 4",
		"helix/languages.toml":           `indent = { tab-width = 4, unit = "    " }`,
		"emacs/hame-mode.el":             "(setq-local tab-width 4)",
		"zed/languages/hame/config.toml": "tab_size = 4",
	} {
		if !strings.Contains(read(t, path), line) {
			t.Errorf("%s has no %s", path, line)
		}
	}
}
