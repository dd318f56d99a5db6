package lsp_test

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"hame/lsp"
)

const small = `harness h { system 12 V; practice land; wire gxl }
zone z { ambient 0..40 degC }
place a in z
supply battery main { at a; capacity 70 Ah; cranking 600 A; post M8; covered } # 😀
protection fuse f1 { at a; rating 5 A }
load led l1 { at a; draws 12 W }
wire w1 main.pos -> f1.in 1 mm2 red 0.1 m
wire w2 f1.out -> l1.pos 1 mm2 red 1 m
wire w3 l1.neg -> main.neg 1 mm2 black 1 m
`

// raw sends bytes as they are, in a frame.
func (e *editor) raw(body string) { _ = e.out.Write([]byte(body)) }

// alive fails unless the server still answers.
func (e *editor) alive(after string) {
	e.t.Helper()
	if m := e.call("textDocument/documentSymbol", map[string]any{"textDocument": e.doc("a.hame")}); m.Error != nil {
		e.t.Errorf("after %s: %s", after, m.Error.Message)
	}
}

// TestMalformed: whatever a client sends, the next call is answered.
func TestMalformed(t *testing.T) {
	e := start(t, t.TempDir(), "utf-16", "")
	e.openText("a.hame", small)
	big := strings.Repeat("x", 4<<20)
	for _, body := range []string{
		"", "{", "null", "1", `"x"`, "[]", "[{}]", "{}", `{"jsonrpc":"2.0"}`, `{"jsonrpc":"2.0","id":{},"method":"x"}`,
		`{"jsonrpc":"2.0","method":5}`, `{"jsonrpc":"2.0","id":null,"method":"textDocument/hover"}`, "\xff\xfe", strings.Repeat("[", 100000),
		`{"jsonrpc":"2.0","id":"s","method":"nobody/knows","params":[1]}`,
		`{"jsonrpc":"2.0","id":"h","method":"textDocument/hover"}`,
		`{"jsonrpc":"2.0","id":"i","method":"textDocument/hover","params":{"textDocument":{"uri":5},"position":"x"}}`,
		`{"jsonrpc":"2.0","method":"textDocument/didOpen"}`,
		`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"::::","text":5}}}`,
		`{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":"file:///never/opened","version":1},"contentChanges":[{"text":"x"}]}}`,
		`{"jsonrpc":"2.0","method":"textDocument/didClose","params":{"textDocument":{"uri":"file:///never/opened"}}}`,
		`{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":99999}}`, `{"jsonrpc":"2.0","method":"$/cancelRequest"}`,
		`{"jsonrpc":"2.0","method":"$/nothing","params":` + `"` + big + `"}`,
		`{"jsonrpc":"2.0","id":77777,"result":null}`, `{"jsonrpc":"2.0","id":"x","error":{"code":1,"message":"no"}}`,
		`{"jsonrpc":"2.0","method":"workspace/didChangeConfiguration","params":{"settings":{"hame":{"inlayHints":5}}}}`,
		`{"jsonrpc":"2.0","method":"workspace/didChangeWorkspaceFolders","params":{"event":{"added":[{"uri":"untitled:x","name":""}],"removed":[]}}}`,
	} {
		e.raw(body)
		e.alive(body[:min(len(body), 80)])
	}
	const noMethod = -32601
	if !slices.ContainsFunc(e.strange, func(m message) bool { return m.Error != nil && m.Error.Code == noMethod }) {
		t.Error("nobody said that there is no such method")
	}
	if err := e.leave(); err != nil {
		t.Error(err)
	}
}

// TestFarPositions: positions outside of the text are clamped (LSP 3.17,
// "Position": a character beyond the line's length is the line's length).
func TestFarPositions(t *testing.T) {
	e := start(t, t.TempDir(), "utf-16", "")
	e.openText("a.hame", "")
	e.openText("b.hame", small)
	const most = 1<<31 - 1
	for _, method := range []string{
		"hover", "completion", "signatureHelp", "definition", "references", "documentHighlight", "prepareRename", "prepareCallHierarchy", "onTypeFormatting",
	} {
		for _, name := range []string{"a.hame", "b.hame"} {
			for _, at := range []map[string]int{{"line": 0, "character": most}, {"line": most, "character": most}, {"line": 3, "character": 83}} {
				m := e.call("textDocument/"+method, map[string]any{
					"textDocument": e.doc(name), "position": at, "context": map[string]any{"includeDeclaration": true}, "ch": "\n",
					"options": map[string]any{"tabSize": 4, "insertSpaces": true},
				})
				if m.Error != nil && m.Error.Code == -32603 {
					t.Errorf("%s at %v of %s: %s", method, at, name, m.Error.Message)
				}
			}
		}
	}
	e.notify("textDocument/didChange", map[string]any{
		"textDocument":   map[string]any{"uri": e.uri("a.hame"), "version": 9},
		"contentChanges": []any{map[string]any{"range": map[string]any{"start": map[string]int{"line": 9, "character": 9}, "end": map[string]int{"line": 1, "character": 1}}, "text": "# z"}},
	})
	e.number["a.hame"] = 9
	if list := e.findings("a.hame"); len(list) != 0 {
		t.Errorf("a file with a comment: %v", list)
	}
}

// TestLifecycle is the protocol's: initialize first and once, nothing but exit
// after shutdown, and an end without it is an error.
func TestLifecycle(t *testing.T) {
	e := connect(t, t.TempDir())
	if m := e.call("textDocument/hover", nil); m.Error == nil || m.Error.Code != -32002 {
		t.Errorf("before initialize: %v", m.Error)
	}
	e.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": "file:///x.hame", "text": "x"}})
	e.must("initialize", map[string]any{"capabilities": map[string]any{}})
	if m := e.call("initialize", map[string]any{"capabilities": map[string]any{}}); m.Error == nil || m.Error.Code != -32600 {
		t.Errorf("a second initialize: %v", m.Error)
	}
	e.must("shutdown", nil)
	if m := e.call("textDocument/hover", nil); m.Error == nil || m.Error.Code != -32600 {
		t.Errorf("after shutdown: %v", m.Error)
	}
	e.notify("exit", nil)
	if err := e.wait(); err != nil {
		t.Errorf("a polite end: %v", err)
	}
	for name, end := range map[string]func(*editor){
		"exit": func(e *editor) { e.notify("exit", nil) },
		"gone": func(e *editor) { _ = e.pipe.Close() },
	} {
		e := start(t, t.TempDir(), "utf-8", "")
		end(e)
		if err := e.wait(); !errors.Is(err, lsp.ErrNotShutDown) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestCancelled: a call that is cancelled is answered with the code for that,
// and those around it as if nothing had been.
func TestCancelled(t *testing.T) {
	e := start(t, t.TempDir(), "utf-16", "")
	e.openText("a.hame", generated(300))
	hints := map[string]any{"textDocument": e.doc("a.hame"), "range": map[string]any{"start": map[string]int{"line": 0, "character": 0}, "end": map[string]int{"line": 9999, "character": 0}}}
	first := e.ask("textDocument/inlayHint", hints)
	second := e.ask("textDocument/inlayHint", hints)
	e.notify("$/cancelRequest", map[string]any{"id": first})
	const cancelled = -32800
	if m := e.answer(first); m.Error != nil && m.Error.Code != cancelled {
		t.Errorf("the first: %v", m.Error)
	}
	if m := e.answer(second); m.Error != nil {
		t.Errorf("the second: %v", m.Error)
	}
}

// TestEditsKeepStep: after any edits, told by lines and characters in any unit,
// the server finds the same as in the same text opened anew.
func TestEditsKeepStep(t *testing.T) {
	e := map[string]*editor{}
	for _, unit := range []string{"utf-8", "utf-16", "utf-32"} {
		e[unit] = start(t, t.TempDir(), unit, `, "capabilities": {"general": {"positionEncodings": ["`+unit+`"]}, "textDocument": {"diagnostic": {}}}`)
	}
	pieces := strings.Split("\n|\r\n|😀|𐐀|ü|\t|{|}|;|#|\"| |wire w9 f1.in -> l1.pos|0.5 mm2|closed|zone z|at b|->|,|use \"hame:lamps\"|place b in z|.", "|")
	n := 0
	rapid.Check(t, func(rt *rapid.T) {
		c := e[rapid.SampledFrom([]string{"utf-8", "utf-16", "utf-32"}).Draw(rt, "unit")]
		n++
		name := fmt.Sprintf("edited%d.hame", n)
		c.openText(name, small)
		for range rapid.IntRange(1, 10).Draw(rt, "edits") {
			content := c.texts[name]
			from := boundary(content, rapid.IntRange(0, len(content)).Draw(rt, "from"))
			to := boundary(content, min(len(content), from+rapid.IntRange(0, 12).Draw(rt, "length")))
			c.edit(name, from, to, rapid.SampledFrom(pieces).Draw(rt, "put"))
		}
		edited, content := c.pulled(name), c.texts[name]
		c.close(name)
		c.openText(name, content)
		if diff := cmp.Diff(c.pulled(name), edited); diff != "" {
			rt.Fatalf("(-opened anew +edited)\n%s", diff)
		}
		c.close(name)
	})
}

// pulled asks for the findings of a file.
func (e *editor) pulled(name string) string {
	e.t.Helper()
	return string(e.must("textDocument/diagnostic", map[string]any{"textDocument": e.doc(name)}))
}

// boundary moves an offset to where an editor can put a cursor: the start of a
// character that is not within a line break.
func boundary(content string, at int) int {
	for at > 0 && at < len(content) && (content[at]&0xC0 == 0x80 || content[at] == '\n' && content[at-1] == '\r') {
		at--
	}
	return at
}

// TestNothingLeaks: a storm of edits and calls, cancelled ones among them,
// leaves no goroutine and no text behind.
func TestNothingLeaks(t *testing.T) {
	before := runtime.NumGoroutine()
	heap := inUse()
	for range 4 {
		storm(t)
	}
	deadline := time.Now().Add(patience)
	for runtime.NumGoroutine() > before && time.Now().Before(deadline) {
		time.Sleep(10 * time.Millisecond)
	}
	if n := runtime.NumGoroutine(); n > before {
		stacks := make([]byte, 1<<16)
		t.Errorf("%d goroutines, there were %d\n%s", n, before, stacks[:runtime.Stack(stacks, true)])
	}
	const allowed = 32 << 20
	if now := inUse(); now > heap+allowed {
		t.Errorf("%d MB more are in use than before", (now-heap)>>20)
	}
}

func inUse() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// storm is one client that types without a pause and asks for everything.
func storm(t testing.TB) {
	e := start(t, t.TempDir(), "utf-16", "")
	random := rand.New(rand.NewPCG(1, 2))
	for i := range 300 {
		name := fmt.Sprintf("f%d.hame", i%7)
		if _, open := e.texts[name]; !open {
			e.openText(name, small)
		}
		at := boundary(e.texts[name], random.IntN(len(e.texts[name])+1))
		e.edit(name, at, at, string(rune('a'+i%26)))
		methods := []string{"hover", "completion", "documentSymbol", "codeLens", "definition", "semanticTokens/full", "foldingRange"}
		id := e.ask("textDocument/"+methods[i%len(methods)], map[string]any{"textDocument": e.doc(name), "position": map[string]int{"line": 3, "character": 9}})
		if i%3 == 0 {
			e.notify("$/cancelRequest", map[string]any{"id": id})
		}
		if i%11 == 0 {
			e.close(name)
		}
	}
	if err := e.leave(); err != nil && !errors.Is(err, io.EOF) {
		t.Error(err)
	}
}
