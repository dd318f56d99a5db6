package lsp

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

// parsed is JSON without regard to the order of members.
func parsed(t *testing.T, raw []byte) (v any) {
	t.Helper()
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatalf("%s: %v", raw, err)
	}
	return v
}

// What is written by hand, from words that are kept, is what the protocol's own
// types write: of every example, by itself and several at once, before an edit and
// after it.
func TestPrinterWritesDiagnostics(t *testing.T) {
	paths, err := filepath.Glob("../examples/*/*.hame")
	if err != nil || len(paths) == 0 {
		t.Fatalf("%d examples, %v", len(paths), err)
	}
	st := &state{uris: newURIBook(), client: client{related: true, tags: true, codeDescription: true}}
	w := &printer{}
	var all []*core.Pass
	for _, path := range paths {
		path, err := filepath.Abs(path)
		if err != nil {
			t.Fatal(err)
		}
		content, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{string(content), "# \"é\"\n" + strings.Replace(string(content), "mm2", "mm2 ", 1)} {
			f := core.NewFile(filepath.ToSlash(path), text, 1)
			pass, err := core.NewChecker(time.Hour).Pass(context.Background(), core.NewView().With(f), f.Path)
			if err != nil {
				t.Fatal(err)
			}
			same(t, st, w, []*core.Pass{pass})
			all = append(all, pass)
		}
	}
	same(t, st, w, all)
}

func same(t *testing.T, st *state, w *printer, passes []*core.Pass) {
	t.Helper()
	typed, written := st.collect(passes), w.pages(st, passes)
	if len(typed) != len(written) {
		t.Fatalf("%d files, not %d", len(written), len(typed))
	}
	for path, f := range typed {
		want, got := []any{}, parsed(t, []byte("["+string(written[path].body)+"]"))
		for i := range f.list {
			raw, err := protocol.Marshal(&f.list[i])
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, parsed(t, raw))
		}
		if diff := cmp.Diff(any(want), got); diff != "" {
			t.Fatalf("%s (-typed +written)\n%s", path, diff)
		}
	}
}
