package lsp_test

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const pulling = `, "initializationOptions": null, "capabilities": {"textDocument": {"diagnostic": {}}}`

// closedReport is what is told of one file that the client does not hold.
type closedReport struct {
	Kind     string
	URI      string
	ResultID string
	Items    []struct{ Code, Message string }
}

// pullAll asks for the findings of all closed files, by name; known are result ids
// that the client has.
func (e *editor) pullAll(known map[string]closedReport) map[string]closedReport {
	e.t.Helper()
	ids := []any{}
	for name, r := range known {
		ids = append(ids, map[string]any{"uri": e.uri(name), "value": r.ResultID})
	}
	var out struct{ Items []closedReport }
	if err := json.Unmarshal(e.must("workspace/diagnostic", map[string]any{"previousResultIds": ids}), &out); err != nil {
		e.t.Fatal(err)
	}
	by := map[string]closedReport{}
	for _, r := range out.Items {
		by[e.name(r.URI)] = r
	}
	return by
}

func (r closedReport) codes() string {
	var list []string
	for _, i := range r.Items {
		list = append(list, i.Code)
	}
	slices.Sort(list)
	return r.Kind + " " + strings.Join(slices.Compact(list), " ")
}

const poor = `harness poor { title "t"; system 12 V; practice land; wire gxl; slack 100 mm }
use "lib/parts.hame"
zone z { ambient 0..40 degC }
place a in z
load lamp l1 { at a }
`

// TestPullAll: closed files of the folder are told of, with what a harness finds in
// its libraries; those that are open, hidden or too large are not. What has not
// changed is not told again.
func TestPullAll(t *testing.T) {
	dir := t.TempDir()
	files := map[string]string{
		"poor.hame": poor, "deep/er/sound.hame": "part x is load led { draws 3 W }\n", "lib/parts.hame": "part lamp is load led { drags 3 W }\n",
		".hidden/no.hame": poor, "large.hame": poor + strings.Repeat("# much\n", 200_000), "open.hame": poor, "other.txt": poor,
	}
	for name, content := range files {
		write(t, filepath.Join(dir, name), []byte(content))
	}
	e := start(t, dir, "utf-8", pulling)
	e.open("open.hame")
	first := e.pullAll(nil)
	want := map[string]string{
		"poor.hame": "full ", "lib/parts.hame": "full setting/unknown", "deep/er/sound.hame": "full ",
	}
	if len(first) != len(want) {
		t.Errorf("%d files are told of: %v", len(first), first)
	}
	for name, codes := range want {
		if got := first[name].codes(); got != codes {
			t.Errorf("%s: %s, want %s", name, got, codes)
		}
	}
	write(t, filepath.Join(dir, "lib/parts.hame"), []byte("part lamp is load led { draws 27 W }\n"))
	second := e.pullAll(first)
	for name, kind := range map[string]string{"lib/parts.hame": "full", "poor.hame": "full", "deep/er/sound.hame": "unchanged"} {
		if second[name].Kind != kind {
			t.Errorf("after a library was mended, %s is %s, want %s", name, second[name].Kind, kind)
		}
	}
	if !strings.Contains(second["poor.hame"].codes(), "graph/") {
		t.Errorf("its load, which nothing feeds, is not told of: %s", second["poor.hame"].codes())
	}
	if err := e.leave(); err != nil {
		t.Error(err)
	}
}

// TestPullAllIsEndedByAnEdit: whoever types is not kept waiting by closed files, and
// the client is told to ask again; what was checked by then is known.
func TestPullAllIsEndedByAnEdit(t *testing.T) {
	dir := t.TempDir()
	for n := range 4 {
		write(t, filepath.Join(dir, fmt.Sprintf("closed%d.hame", n)), []byte(generated(600)))
	}
	write(t, filepath.Join(dir, "open.hame"), []byte(poor))
	e := start(t, dir, "utf-8", pulling)
	e.open("open.hame")
	e.must("textDocument/diagnostic", map[string]any{"textDocument": e.doc("open.hame")})
	id := e.ask("workspace/diagnostic", map[string]any{"previousResultIds": []any{}})
	e.edit("open.hame", 0, 0, "# typed\n")
	e.must("textDocument/diagnostic", map[string]any{"textDocument": e.doc("open.hame")})
	const serverCancelled = -32802
	if m := e.answer(id); m.Error == nil || m.Error.Code != serverCancelled || !strings.Contains(string(m.Error.Data), "retrigger") {
		t.Errorf("the answer is %s, %+v", m.Result, m.Error)
	}
	if all := e.pullAll(nil); len(all) != 4 {
		t.Errorf("%d files are told of", len(all))
	}
	if err := e.leave(); err != nil {
		t.Error(err)
	}
}
