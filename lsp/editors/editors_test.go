package editors_test

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/syntax"
	"hame/lsp/editors"
)

var update = flag.Bool("update", false, "write the grammars anew")

var files = map[string]func() ([]byte, error){
	"hame.tmLanguage.json": editors.TextMate,
	"hame.chroma.xml":      editors.Chroma,
}

// TestFilesAreFresh: what editors install is what the language gives, byte for
// byte, each time.
func TestFilesAreFresh(t *testing.T) {
	for path, build := range files {
		got := built(t, build)
		if again := built(t, build); got != again {
			t.Errorf("%s comes out otherwise the second time", path)
		}
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s is stale; `go test ./lsp/editors -update` writes it anew (-want +got)\n%s", path, diff)
		}
	}
}

func built(t *testing.T, build func() ([]byte, error)) string {
	t.Helper()
	text, err := build()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestAllWordsAreKnown: every keyword, kind's setting, unit, colour and word
// that a setting takes stands in both files.
func TestAllWordsAreKnown(t *testing.T) {
	for path, build := range files {
		known := map[string]bool{}
		for _, w := range strings.FieldsFunc(built(t, build), func(r rune) bool { return strings.ContainsRune("|()?:", r) }) {
			known[w] = true
		}
		for _, w := range allWords() {
			if !known[w] {
				t.Errorf("`%s` is not in %s", w, path)
			}
		}
	}
}

func allWords() []string {
	list := append(syntax.Keywords(), kinds.Colours()...)
	for d := quantity.Voltage; d <= quantity.Ratio; d++ {
		list = append(list, quantity.Units(d)...)
	}
	for _, k := range kinds.All() {
		list = append(list, settingWords(k)...)
	}
	return list
}

func settingWords(k *kinds.Kind) []string {
	list := k.SettingNames()
	for _, s := range k.Settings {
		for _, slots := range s.Slots() {
			for _, slot := range slots {
				list = append(list, slot.Words...)
			}
		}
		if s.Block != nil {
			list = append(list, settingWords(s.Block)...)
		}
	}
	return list
}

// TestOtherSpellingsAreRead: the spellings of units that the grammars add are
// ones that the language reads.
func TestOtherSpellingsAreRead(t *testing.T) {
	for _, u := range editors.OtherSpellings {
		if name, ok := quantity.Canonical(u); !ok || name == u {
			t.Errorf("%q is not another spelling of a unit", u)
		}
	}
}
