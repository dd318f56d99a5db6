package lsp_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
)

// verbs are what a client can do in a conversation: the file, then the rest of
// the line.
var verbs map[string]func(s *scene, file, rest string)

func init() {
	verbs = map[string]func(s *scene, file, rest string){
		"open":        func(s *scene, file, _ string) { s.e.open(file) },
		"close":       func(s *scene, file, _ string) { s.e.close(file) },
		"edit":        edit,
		"disk":        disk,
		"findings":    findings,
		"after":       after,
		"brief":       brief,
		"full":        func(s *scene, file, _ string) { s.found(s.e.findings(file), true) },
		"pull":        pull,
		"hover":       hover,
		"complete":    complete,
		"signature":   signature,
		"definition":  locations("textDocument/definition", ""),
		"references":  locations("textDocument/references", `{"includeDeclaration": true}`),
		"highlights":  locations("textDocument/documentHighlight", ""),
		"rename":      rename,
		"prepare":     func(s *scene, file, mark string) { s.raw("textDocument/prepareRename", s.at(file, mark)) },
		"symbols":     func(s *scene, file, _ string) { s.list("textDocument/documentSymbol", s.on(file)) },
		"search":      func(s *scene, query, _ string) { s.list("workspace/symbol", map[string]any{"query": query}) },
		"folds":       func(s *scene, file, _ string) { s.list("textDocument/foldingRange", s.on(file)) },
		"selections":  selections,
		"tokens":      tokens,
		"format":      formatted("textDocument/formatting"),
		"formatRange": formatted("textDocument/rangeFormatting"),
		"typed":       formatted("textDocument/onTypeFormatting"),
		"actions":     actions,
		"act":         act,
		"hints":       hints,
		"lenses":      lenses,
		"feeds":       feeds,
		"text":        func(s *scene, file, _ string) { s.say("%s", strings.TrimSuffix(s.e.texts[file], "\n")) },
		"call":        func(s *scene, method, params string) { s.rawLine(method, params) },
		"notify":      func(s *scene, method, params string) { s.e.notify(method, json.RawMessage(params)) },
		"asked":       asked,
	}
}

func (s *scene) on(file string) map[string]any { return map[string]any{"textDocument": s.e.doc(file)} }

// result is a call's result decoded; a refusal is said and gives false.
func (s *scene) result(method string, params, into any) bool {
	m := s.e.call(method, params)
	if m.Error != nil {
		s.say("  refused: %s", s.clean(m.Error.Message))
		return false
	}
	s.last = m.Result
	if err := json.Unmarshal(m.Result, into); err != nil {
		s.t.Fatalf("%s: %v", m.Result, err)
	}
	return true
}

// clean takes the folder out of a text.
func (s *scene) clean(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(text, s.e.uri("")+"/", ""), s.dir, "DIR")
}

func (s *scene) indented(text string) {
	for line := range strings.SplitSeq(strings.TrimRight(text, "\n"), "\n") {
		s.say("%s", strings.TrimRight("  "+s.clean(line), " "))
	}
}

func (s *scene) raw(method string, params any) {
	var v any
	if s.result(method, params, &v) {
		out, err := json.MarshalIndent(v, "", "  ")
		if err != nil {
			s.t.Fatal(err)
		}
		s.indented(string(out))
	}
}

func (s *scene) rawLine(method, params string) {
	s.raw(method, json.RawMessage(strings.ReplaceAll(params, "DIR", s.e.uri(""))))
}

func (r span) String() string {
	if r.Start == r.End {
		return fmt.Sprintf("%d:%d", r.Start.Line, r.Start.Character)
	}
	return fmt.Sprintf("%d:%d-%d:%d", r.Start.Line, r.Start.Character, r.End.Line, r.End.Character)
}

// edit: edit FILE "old" "new"
func edit(s *scene, file, rest string) {
	q := quoted(s.t, rest)
	at := strings.Index(s.e.texts[file], q[0])
	if at < 0 {
		s.t.Fatalf("%q does not stand in %s", q[0], file)
	}
	s.e.mu.Lock()
	s.before = maps.Clone(s.e.rounds)
	s.e.mu.Unlock()
	s.e.edit(file, at, at+len(q[0]), q[1])
}

// after waits for what an edit of another file has changed in this one.
func after(s *scene, file, _ string) {
	s.e.until("more of "+file, func() bool { return s.e.rounds[file] > s.before[file] })
	s.e.mu.Lock()
	list := s.e.found[file]
	s.e.mu.Unlock()
	s.found(list, false)
}

// disk changes a file behind the editor's back and has it told: disk FILE "text"
func disk(s *scene, file, rest string) {
	path := filepath.Join(s.dir, file)
	if rest == "" {
		if err := os.Remove(path); err != nil {
			s.t.Fatal(err)
		}
	} else {
		write(s.t, path, []byte(quoted(s.t, rest)[0]))
	}
	if _, open := s.e.texts[file]; !open {
		s.e.mu.Lock()
		clear(s.e.rounds) // what comes next is heard anew
		s.e.mu.Unlock()
	}
	s.e.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": s.e.uri(file), "type": 2}}})
}

func findings(s *scene, file, _ string) { s.found(s.e.findings(file), false) }

type diagnostic struct {
	Range              span
	Severity           int
	Code, Message      string
	Tags               []int
	CodeDescription    struct{ Href string }
	RelatedInformation []struct {
		Location location
		Message  string
	}
}

var severities = []string{"", "error", "warning", "information", "hint"}

func (s *scene) found(list []any, full bool) {
	raw, err := json.Marshal(list)
	if err != nil {
		s.t.Fatal(err)
	}
	var all []diagnostic
	if err := json.Unmarshal(raw, &all); err != nil {
		s.t.Fatalf("%s: %v", raw, err)
	}
	heard := false
	for _, d := range all {
		if area, _, _ := strings.Cut(d.Code, "/"); !s.shown[area] && !s.shown[d.Code] {
			continue
		}
		heard = true
		text := d.Message
		if !full {
			text, _, _ = strings.Cut(text, "\n")
		}
		s.indented(fmt.Sprintf("%s %s %s: %s", d.Range, severities[d.Severity], d.Code, text))
		if full {
			s.indented(fmt.Sprintf("  tags %v, %s", d.Tags, d.CodeDescription.Href))
		}
		for _, r := range d.RelatedInformation {
			s.indented("  see " + r.Location.String() + ": " + r.Message)
		}
	}
	if !heard {
		s.say("  nothing")
	}
}

// pull asks for findings; a second time with the name of the last answer.
func pull(s *scene, file, id string) {
	p := s.on(file)
	if id != "" {
		var last struct{ ResultID string }
		if err := json.Unmarshal(s.last, &last); err != nil {
			s.t.Fatal(err)
		}
		p["previousResultId"] = last.ResultID
	}
	var r struct {
		Kind  string
		Items []any
	}
	if s.result("textDocument/diagnostic", p, &r) {
		s.say("  %s", r.Kind)
		if r.Kind == "full" {
			s.found(r.Items, false)
		}
	}
}

// brief is the first line of what is told.
func brief(s *scene, file, mark string) {
	var h *struct{ Contents struct{ Value string } }
	if s.result("textDocument/hover", s.at(file, mark), &h) && h != nil {
		first, _, _ := strings.Cut(h.Contents.Value, "\n")
		s.indented(first)
	}
}

func hover(s *scene, file, mark string) {
	var h *struct {
		Contents struct{ Kind, Value string }
		Range    span
	}
	if !s.result("textDocument/hover", s.at(file, mark), &h) {
		return
	}
	if h == nil {
		s.say("  nothing")
		return
	}
	s.say("  at %s, %s", h.Range, h.Contents.Kind)
	s.indented(h.Contents.Value)
}

type proposal struct {
	Label, SortText, Detail string
	TextEdit                textEdit
}

// complete lists the first proposals that go on with what is written, a line
// each.
func complete(s *scene, file, mark string) {
	var list struct{ Items []proposal }
	if !s.result("textDocument/completion", s.at(file, mark), &list) {
		return
	}
	sort.SliceStable(list.Items, func(i, j int) bool { return list.Items[i].SortText < list.Items[j].SortText })
	cursor := s.cursor(file, mark)
	list.Items = slices.DeleteFunc(list.Items, func(x proposal) bool {
		return !strings.HasPrefix(x.Label, s.e.texts[file][s.e.start(s.e.texts[file], x.TextEdit):cursor])
	})
	const most = 12
	for i, x := range list.Items {
		if i == most {
			s.say("  and more")
			break
		}
		s.say("%s", strings.TrimRight(fmt.Sprintf("  %s %-14s %s", x.TextEdit.Range, x.Label, x.Detail), " "))
	}
	if len(list.Items) == 0 {
		s.say("  nothing")
	}
}

func signature(s *scene, file, mark string) {
	var h *struct {
		Signatures []struct {
			Label      string
			Parameters []struct{ Label string }
		}
		ActiveParameter *int
	}
	if !s.result("textDocument/signatureHelp", s.at(file, mark), &h) {
		return
	}
	if h == nil {
		s.say("  nothing")
		return
	}
	active := "all behind"
	if n := h.ActiveParameter; n != nil {
		active = h.Signatures[0].Parameters[*n].Label
	}
	s.say("  %s, now %s", h.Signatures[0].Label, active)
}

type location struct {
	URI   string
	Range span
}

func (l location) String() string { return l.URI + ":" + l.Range.String() }

func locations(method, context string) func(s *scene, file, mark string) {
	return func(s *scene, file, mark string) {
		p := s.at(file, mark)
		if context != "" {
			p["context"] = json.RawMessage(context)
		}
		var v json.RawMessage
		if !s.result(method, p, &v) {
			return
		}
		var many []location
		if one := (location{}); json.Unmarshal(v, &many) != nil {
			if err := json.Unmarshal(v, &one); err != nil {
				s.t.Fatalf("%s: %v", v, err)
			}
			many = []location{one}
		}
		if len(many) == 0 {
			s.say("  nothing")
		}
		for _, l := range many {
			s.indented(strings.TrimPrefix(l.String(), ":"))
		}
	}
}

type workspaceEdit struct {
	DocumentChanges []struct {
		TextDocument struct {
			URI     string
			Version *int
		}
		Edits []textEdit
	}
}

// take applies an edit to what is open and writes what is not.
func (s *scene) take(w workspaceEdit) {
	for _, d := range w.DocumentChanges {
		name := s.e.name(d.TextDocument.URI)
		for _, x := range d.Edits {
			s.indented(fmt.Sprintf("%s:%s %q", name, x.Range, x.NewText))
		}
		content, open := s.e.texts[name]
		if !open {
			s.rewrite(name, d.Edits)
			continue
		}
		if d.TextDocument.Version == nil || *d.TextDocument.Version != s.e.number[name] {
			s.t.Errorf("an edit of %s is for another version", name)
		}
		s.e.edit(name, 0, len(content), s.e.applied(content, d.Edits))
	}
}

// rewrite applies an edit to a file on the disk.
func (s *scene) rewrite(name string, edits []textEdit) {
	path := filepath.Join(s.dir, name)
	content, err := os.ReadFile(path)
	if err != nil {
		s.t.Fatal(err)
	}
	write(s.t, path, []byte(s.e.applied(string(content), edits)))
}

// rename: rename FILE NAME mark|
func rename(s *scene, file, rest string) {
	to, mark, _ := strings.Cut(rest, " ")
	p := s.at(file, mark)
	p["newName"] = to
	var w *workspaceEdit
	if s.result("textDocument/rename", p, &w) && w != nil {
		s.take(*w)
	}
}

// list says a list of things with names and ranges.
func (s *scene) list(method string, params any) {
	var all []struct {
		Name, Detail, ContainerName, Kind any
		Range                             *span
		Location                          *location
		StartLine, EndLine                *int
	}
	if !s.result(method, params, &all) {
		return
	}
	for _, x := range all {
		switch {
		case x.StartLine != nil:
			s.say("  %d-%d %v", *x.StartLine, *x.EndLine, x.Kind)
		case x.Location != nil:
			s.indented(fmt.Sprintf("%v, %v, %v", x.Name, x.ContainerName, x.Location))
		default:
			s.say("  %v, %v, %v", x.Name, x.Detail, x.Range)
		}
	}
	if len(all) == 0 {
		s.say("  nothing")
	}
}

func selections(s *scene, file, mark string) {
	type selection struct {
		Range  span
		Parent *selection
	}
	var list []selection
	p := s.on(file)
	p["positions"] = []any{s.e.position(s.e.texts[file], s.cursor(file, mark))}
	if !s.result("textDocument/selectionRange", p, &list) {
		return
	}
	for at := &list[0]; at != nil; at = at.Parent {
		start := s.e.offset(s.e.texts[file], at.Range.Start.Line, at.Range.Start.Character)
		end := s.e.offset(s.e.texts[file], at.Range.End.Line, at.Range.End.Character)
		s.say("  %q", s.e.texts[file][start:end])
	}
}

// tokens says every word with its type: the types are asked for again, so that
// the legend is tested too.
func tokens(s *scene, file, _ string) {
	var r struct{ Data []int }
	if !s.result("textDocument/semanticTokens/full", s.on(file), &r) {
		return
	}
	legend := []string{
		"keyword", "type", "variable", "property", "number", "string", "comment", "operator",
		"enumMember", "namespace", "function", "parameter", "class", "event",
	}
	line, char, content := 0, 0, s.e.texts[file]
	for d := range slices.Chunk(r.Data, 5) {
		if d[0] > 0 {
			line, char = line+d[0], 0
		}
		char += d[1]
		start, end := s.e.offset(content, line, char), s.e.offset(content, line, char+d[2])
		mark := ""
		if d[4] != 0 {
			mark = " (declared)"
		}
		s.say("  %d:%d %s %q%s", line, char, legend[d[3]], content[start:end], mark)
	}
}

// formatted: format FILE; formatRange FILE mark|; typed FILE CH mark|
func formatted(method string) func(s *scene, file, rest string) {
	return func(s *scene, file, rest string) {
		p := s.on(file)
		p["options"] = map[string]any{"tabSize": 4, "insertSpaces": true}
		switch method {
		case "textDocument/rangeFormatting":
			at := s.e.position(s.e.texts[file], s.cursor(file, rest))
			p["range"] = map[string]any{"start": at, "end": at}
		case "textDocument/onTypeFormatting":
			q := quoted(s.t, rest)
			p["ch"], p["position"] = q[0], s.e.position(s.e.texts[file], s.cursor(file, q[1]))
		}
		var edits []textEdit
		if s.result(method, p, &edits) {
			s.e.edit(file, 0, len(s.e.texts[file]), s.e.applied(s.e.texts[file], edits))
			s.indented(s.e.texts[file])
		}
	}
}

type action struct {
	Title       string
	Kind        string
	IsPreferred bool
	Edit        workspaceEdit
	Diagnostics []diagnostic
	Data        json.RawMessage
	whole       json.RawMessage // as it came, to be asked about
}

// about is the rule that an action is about.
func (a *action) about() string {
	if len(a.Diagnostics) == 0 {
		return "no finding"
	}
	return a.Diagnostics[0].Code
}

func (s *scene) actions(file, mark string, only ...string) []action {
	p := s.on(file)
	at := s.e.position(s.e.texts[file], s.cursor(file, mark))
	p["range"] = map[string]any{"start": at, "end": at}
	p["context"] = map[string]any{"diagnostics": []any{}}
	if len(only) > 0 {
		p["context"] = map[string]any{"diagnostics": []any{}, "only": only}
	}
	var list []json.RawMessage
	s.result("textDocument/codeAction", p, &list)
	actions := make([]action, len(list))
	for i, raw := range list {
		actions[i].whole = raw
		if err := json.Unmarshal(raw, &actions[i]); err != nil {
			s.t.Fatalf("%s: %v", raw, err)
		}
	}
	return actions
}

func actions(s *scene, file, mark string) {
	list := s.actions(file, mark)
	offered := false
	for _, a := range list {
		if area, _, _ := strings.Cut(a.about(), "/"); !s.shown[area] && !s.shown[a.about()] {
			continue
		}
		offered = true
		preferred := ""
		if a.IsPreferred {
			preferred = ", preferred"
		}
		s.say("  %s (%s%s)", a.Title, a.about(), preferred)
	}
	if !offered {
		s.say("  nothing")
	}
}

// act does the first action whose title starts so: act FILE "title" "mark|"
func act(s *scene, file, rest string) {
	q := quoted(s.t, rest)
	for _, a := range append(s.actions(file, q[1]), s.actions(file, q[1], "source.fixAll")...) {
		if !strings.HasPrefix(a.Title, q[0]) {
			continue
		}
		if len(a.Data) == 0 || s.result("codeAction/resolve", a.whole, &a) {
			s.take(a.Edit)
		}
		return
	}
	s.t.Fatalf("there is no action %q", q[0])
}

func hints(s *scene, file, _ string) {
	p := s.on(file)
	p["range"] = map[string]any{"start": s.e.position(s.e.texts[file], 0), "end": s.e.position(s.e.texts[file], len(s.e.texts[file]))}
	var list []struct {
		Position struct{ Line, Character int }
		Label    string
	}
	if s.result("textDocument/inlayHint", p, &list) {
		for _, h := range list {
			s.say("  %d:%d %s", h.Position.Line, h.Position.Character, h.Label)
		}
	}
}

func lenses(s *scene, file, _ string) {
	var list []struct {
		Range   span
		Command struct{ Title string }
	}
	if s.result("textDocument/codeLens", s.on(file), &list) {
		for _, l := range list {
			s.say("  %s %s", l.Range, l.Command.Title)
		}
	}
}

// feeds says what feeds a thing and what it feeds.
func feeds(s *scene, file, mark string) {
	var items []json.RawMessage
	if !s.result("textDocument/prepareCallHierarchy", s.at(file, mark), &items) || len(items) == 0 {
		s.say("  nothing")
		return
	}
	var self struct{ Name, Detail string }
	if err := json.Unmarshal(items[0], &self); err != nil {
		s.t.Fatal(err)
	}
	s.say("  %s, %s", self.Name, self.Detail)
	for _, way := range []struct{ method, key, word string }{
		{"callHierarchy/incomingCalls", "from", "fed by"}, {"callHierarchy/outgoingCalls", "to", "feeds"},
	} {
		var list []map[string]json.RawMessage
		s.result(way.method, map[string]any{"item": items[0]}, &list)
		for _, x := range list {
			if err := json.Unmarshal(x[way.key], &self); err != nil {
				s.t.Fatal(err)
			}
			s.say("  %s %s, %s", way.word, self.Name, self.Detail)
		}
	}
}

// asked says what the server has asked for since the beginning.
func asked(s *scene, method, _ string) {
	s.e.until(method, func() bool { return slices.Contains(s.e.asked, method) })
	s.say("  yes")
}
