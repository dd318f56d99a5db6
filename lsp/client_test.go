package lsp_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf16"

	"hame/lsp"
	"hame/lsp/wire"
)

// editor is a client for tests. It reads and writes plain JSON and counts
// positions on its own, so that nothing of the server's own reading is used to
// judge it.
type editor struct {
	t      testing.TB
	dir    string
	out    *wire.Writer
	pipe   io.Closer
	ended  chan error
	unit   string
	texts  map[string]string
	number map[string]int

	mu       sync.Mutex
	news     *sync.Cond
	nextID   int
	answers  map[int]message
	strange  []message        // answers to what was no call of this editor
	found    map[string][]any // diagnostics last published, by file
	version  map[string]int   // for which version they were
	rounds   map[string]int   // how often they were published
	first    map[arrival]time.Time
	heard    map[string][][]any // all that was published, by file, where it is kept
	asked    []string           // what the server asked for
	logged   []string
	finished bool
}

// arrival is the first publication for a version of a file.
type arrival struct {
	name    string
	version int
}

type message struct {
	ID     json.RawMessage `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Code    int             `json:"code"`
		Message string          `json:"message"`
		Data    json.RawMessage `json:"data"`
	} `json:"error"`
}

const patience = 20 * time.Second

// capabilities are what the client says it can do.
const capabilities = `{
  "general": {"positionEncodings": ["%s"]},
  "workspace": {"workspaceEdit": {"documentChanges": true}, "inlayHint": {"refreshSupport": true}, "didChangeWatchedFiles": {"dynamicRegistration": true}},
  "textDocument": {
    "hover": {"contentFormat": ["plaintext"]},
    "completion": {"completionItem": {"snippetSupport": true}},
    "publishDiagnostics": {"relatedInformation": true, "versionSupport": true, "codeDescriptionSupport": true, "tagSupport": {"valueSet": [1, 2]}}
  }
}`

// start starts a server and says hello to it. More is added to the parameters.
func start(t testing.TB, dir, unit, more string) *editor {
	e := connect(t, dir)
	e.unit = unit
	params := fmt.Sprintf(`{"processId": null, "rootUri": %q, "capabilities": %s %s}`, e.uri(""), fmt.Sprintf(capabilities, unit), more)
	e.must("initialize", json.RawMessage(params))
	e.notify("initialized", struct{}{})
	return e
}

// connect starts a server and says nothing.
func connect(t testing.TB, dir string) *editor {
	toServer, fromClient := io.Pipe()
	toClient, fromServer := io.Pipe()
	e := &editor{
		t: t, dir: dir, out: wire.NewWriter(fromClient), pipe: fromClient, ended: make(chan error, 1), unit: "utf-16",
		texts: map[string]string{}, number: map[string]int{}, answers: map[int]message{},
		found: map[string][]any{}, version: map[string]int{}, rounds: map[string]int{}, first: map[arrival]time.Time{},
	}
	e.news = sync.NewCond(&e.mu)
	go func() {
		err := lsp.Serve(context.Background(), toServer, fromServer)
		_ = toServer.Close()
		_ = fromServer.Close()
		e.ended <- err
	}()
	go e.read(wire.NewReader(toClient))
	t.Cleanup(func() { _ = fromClient.Close() })
	return e
}

// leave ends the conversation as the protocol asks for.
func (e *editor) leave() error {
	e.must("shutdown", nil)
	e.notify("exit", nil)
	return e.wait()
}

func (e *editor) wait() error {
	select {
	case err := <-e.ended:
		return err
	case <-time.After(patience):
		e.t.Fatal("the server does not end")
		return nil
	}
}

func (e *editor) read(r *wire.Reader) {
	for {
		body, err := r.Next()
		at := time.Now()
		if err != nil {
			e.mu.Lock()
			e.finished = true
			e.news.Broadcast()
			e.mu.Unlock()
			return
		}
		var m message
		if err := json.Unmarshal(body, &m); err != nil {
			e.t.Errorf("the server sent %q: %v", body, err)
			continue
		}
		e.take(m, at)
	}
}

func (e *editor) take(m message, at time.Time) {
	e.mu.Lock()
	defer e.mu.Unlock()
	defer e.news.Broadcast()
	switch {
	case m.Method == "textDocument/publishDiagnostics":
		var p struct {
			URI         string
			Version     int
			Diagnostics []any
		}
		if err := json.Unmarshal(m.Params, &p); err != nil {
			e.t.Errorf("%s: %v", m.Params, err)
		}
		name := e.name(p.URI)
		e.found[name], e.version[name] = p.Diagnostics, p.Version
		e.rounds[name]++
		if e.heard != nil {
			e.heard[name] = append(e.heard[name], p.Diagnostics)
		}
		if a := (arrival{name, p.Version}); e.first[a].IsZero() {
			e.first[a] = at
		}
	case m.Method == "window/logMessage":
		e.logged = append(e.logged, string(m.Params))
	case m.Method != "":
		e.asked = append(e.asked, m.Method)
		if m.ID != nil {
			go e.send(map[string]any{"jsonrpc": "2.0", "id": m.ID, "result": nil})
		}
	default:
		var id int
		if m.ID == nil || json.Unmarshal(m.ID, &id) != nil {
			e.strange = append(e.strange, m)
			return
		}
		e.answers[id] = m
	}
}

func (e *editor) send(v any) {
	body, err := json.Marshal(v)
	if err != nil {
		e.t.Errorf("%v", err)
		return
	}
	_ = e.out.Write(body) // a server that has ended is noticed by who waits for it
}

func (e *editor) notify(method string, params any) {
	m := map[string]any{"jsonrpc": "2.0", "method": method}
	if params != nil {
		m["params"] = params
	}
	e.send(m)
}

// ask sends a call and does not wait.
func (e *editor) ask(method string, params any) int {
	e.mu.Lock()
	e.nextID++
	id := e.nextID
	e.mu.Unlock()
	m := map[string]any{"jsonrpc": "2.0", "id": id, "method": method}
	if params != nil {
		m["params"] = params
	}
	e.send(m)
	return id
}

// until waits for something to come true.
func (e *editor) until(what string, ready func() bool) {
	e.t.Helper()
	late := time.AfterFunc(patience, func() {
		e.mu.Lock()
		e.finished = true
		e.mu.Unlock()
		e.news.Broadcast()
	})
	defer late.Stop()
	e.mu.Lock()
	defer e.mu.Unlock()
	for !ready() {
		if e.finished {
			e.t.Fatalf("waited in vain for %s", what)
		}
		e.news.Wait()
	}
}

func (e *editor) answer(id int) message {
	e.t.Helper()
	e.until(fmt.Sprintf("answer %d", id), func() bool { _, ok := e.answers[id]; return ok })
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.answers[id]
}

func (e *editor) call(method string, params any) message {
	e.t.Helper()
	return e.answer(e.ask(method, params))
}

// must is a call that is not refused.
func (e *editor) must(method string, params any) json.RawMessage {
	e.t.Helper()
	m := e.call(method, params)
	if m.Error != nil {
		e.t.Fatalf("%s: %s", method, m.Error.Message)
	}
	return m.Result
}

func (e *editor) uri(name string) string {
	if strings.Contains(name, ":") {
		return name
	}
	return "file://" + filepath.ToSlash(filepath.Join(e.dir, name))
}

func (e *editor) name(uri string) string {
	return strings.TrimPrefix(strings.TrimPrefix(uri, "file://"+filepath.ToSlash(e.dir)), "/")
}

func (e *editor) doc(name string) map[string]any {
	return map[string]any{"uri": e.uri(name)}
}

// open opens a file from the disk.
func (e *editor) open(name string) {
	content, err := os.ReadFile(filepath.Join(e.dir, name))
	if err != nil {
		e.t.Fatal(err)
	}
	e.openText(name, string(content))
}

func (e *editor) openText(name, content string) {
	e.number[name]++
	e.texts[name] = content
	e.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{
		"uri": e.uri(name), "languageId": "hame", "version": e.number[name], "text": content,
	}})
}

func (e *editor) close(name string) {
	delete(e.texts, name)
	e.number[name] = 0
	e.notify("textDocument/didClose", map[string]any{"textDocument": e.doc(name)})
}

// edit replaces bytes of an open text and tells the server.
func (e *editor) edit(name string, start, end int, put string) {
	old := e.texts[name]
	e.texts[name] = old[:start] + put + old[end:]
	e.number[name]++
	e.notify("textDocument/didChange", map[string]any{
		"textDocument":   map[string]any{"uri": e.uri(name), "version": e.number[name]},
		"contentChanges": []any{map[string]any{"range": map[string]any{"start": e.position(old, start), "end": e.position(old, end)}, "text": put}},
	})
}

// findings waits for what is found in the newest text of a file.
func (e *editor) findings(name string) []any {
	e.t.Helper()
	e.until("findings of "+name, func() bool { return e.rounds[name] > 0 && e.version[name] == e.number[name] })
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.found[name]
}

// settled waits until all that is found in the newest text of a file is published:
// the check has ended, and what it found has come.
func (e *editor) settled(name string) {
	e.t.Helper()
	e.must("textDocument/codeLens", map[string]any{"textDocument": e.doc(name)})
	e.findings(name)
	for quiet := 0; quiet < 8; {
		e.mu.Lock()
		rounds := e.rounds[name]
		e.mu.Unlock()
		time.Sleep(20 * time.Millisecond)
		e.mu.Lock()
		if quiet++; e.rounds[name] != rounds {
			quiet = 0
		}
		e.mu.Unlock()
	}
}

// arrival is when the first findings of the newest text of a file came, this
// client's own reading of them left out.
func (e *editor) arrival(name string) time.Time {
	e.t.Helper()
	e.findings(name)
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.first[arrival{name, e.number[name]}]
}

// position is where a byte lies, in the unit that was agreed on.
func (e *editor) position(content string, at int) map[string]int {
	before := content[:at]
	line := strings.Count(before, "\n")
	before = before[strings.LastIndexByte(before, '\n')+1:]
	n := len(before)
	switch e.unit {
	case "utf-16":
		n = len(utf16.Encode([]rune(before)))
	case "utf-32":
		n = len([]rune(before))
	}
	return map[string]int{"line": line, "character": n}
}

// offset is the byte at a position.
func (e *editor) offset(content string, line, char int) int {
	at := 0
	for range line {
		at += strings.IndexByte(content[at:], '\n') + 1
	}
	for at < len(content) && content[at] != '\n' && e.position(content, at)["character"] < char {
		at += len(string([]rune(content[at:])[:1]))
	}
	return at
}

type span struct {
	Start, End struct{ Line, Character int }
}

type textEdit struct {
	Range   span
	NewText string
}

// applied is a text after edits that were all meant for the text before.
func (e *editor) applied(content string, edits []textEdit) string {
	var b bytes.Buffer
	at := 0
	for len(edits) > 0 {
		first := 0
		for i := range edits {
			if e.start(content, edits[i]) < e.start(content, edits[first]) {
				first = i
			}
		}
		x := edits[first]
		edits = append(append([]textEdit{}, edits[:first]...), edits[first+1:]...)
		start, end := e.start(content, x), e.offset(content, x.Range.End.Line, x.Range.End.Character)
		if start < at {
			e.t.Errorf("edits lie one over another: %v", x)
			return content
		}
		b.WriteString(content[at:start] + x.NewText)
		at = end
	}
	return b.String() + content[at:]
}

func (e *editor) start(content string, x textEdit) int {
	return e.offset(content, x.Range.Start.Line, x.Range.Start.Character)
}
