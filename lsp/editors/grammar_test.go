package editors_test

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/lang/kinds"
	"hame/lang/syntax"
	"hame/lsp/editors"
)

var update = flag.Bool("update", false, "write the grammars anew")

const textMate = "textmate/hame.tmLanguage.json"

// TestTextMateIsFresh: the file that editors install is what the language gives.
func TestTextMateIsFresh(t *testing.T) {
	got, err := editors.TextMate()
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(textMate, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(textMate)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s is stale; `go test ./lsp/editors -update` writes it anew (-want +got)\n%s", textMate, diff)
	}
}

// TestTextMateKnowsAllWords: every keyword, setting, colour and cable of the
// language stands in the grammar.
func TestTextMateKnowsAllWords(t *testing.T) {
	raw, err := editors.TextMate()
	if err != nil {
		t.Fatal(err)
	}
	words := strings.FieldsFunc(string(raw), func(r rune) bool { return strings.ContainsRune("|():?", r) })
	known := map[string]bool{}
	for _, w := range words {
		known[w] = true
	}
	wanted := append(append(syntax.Keywords(), kinds.Colours()...), kinds.Insulations()...)
	for _, k := range kinds.All() {
		wanted = append(wanted, k.SettingNames()...)
	}
	for _, w := range wanted {
		if !known[w] {
			t.Errorf("`%s` is not in the grammar", w)
		}
	}
}

// TestSetupsNameTheCommand: every set-up starts the server as the command is
// called, for files as they are called.
func TestSetupsNameTheCommand(t *testing.T) {
	for _, path := range []string{"neovim/hame.lua", "helix/languages.toml", "emacs/hame-mode.el", "vscode/src/extension.ts"} {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, word := range []string{"hame", "lsp"} {
			if !strings.Contains(string(text), `"`+word+`"`) {
				t.Errorf("%s does not start `hame lsp`", path)
			}
		}
	}
}
