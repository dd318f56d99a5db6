package lsp

import (
	"fmt"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
	"hame/lsp/text"
)

func init() {
	onNotification(protocol.MethodTextDocumentDidOpen, (*Server).didOpen)
	onNotification(protocol.MethodTextDocumentDidChange, (*Server).didChange)
	onNotification(protocol.MethodTextDocumentDidClose, (*Server).didClose)
	onNotification(protocol.MethodTextDocumentDidSave, func(*Server, *protocol.DidSaveTextDocumentParams) error { return nil })
}

func (s *Server) didOpen(p *protocol.DidOpenTextDocumentParams) error {
	d := &p.TextDocument
	path := pathOf(d.URI)
	s.now().uris.note(path, d.URI)
	s.hold(core.NewFile(path, d.Text, d.Version))
	return nil
}

func (s *Server) didChange(p *protocol.DidChangeTextDocumentParams) error {
	st := s.now()
	f := st.view.Open(pathOf(p.TextDocument.URI))
	if f == nil {
		return fmt.Errorf("%s is not open", p.TextDocument.URI)
	}
	next := text.Apply(f.Lines(), changesOf(p.ContentChanges), st.client.encoding)
	s.hold(f.Edited(next, p.TextDocument.Version))
	return nil
}

func changesOf(list []protocol.TextDocumentContentChangeEvent) []text.Change {
	var out []text.Change
	for _, c := range list {
		switch c := c.(type) {
		case *protocol.TextDocumentContentChangePartial:
			out = append(out, text.Change{From: pointOf(c.Range.Start), To: pointOf(c.Range.End), Text: c.Text})
		case *protocol.TextDocumentContentChangeWholeDocument:
			out = append(out, text.Change{Whole: true, Text: c.Text})
		}
	}
	return out
}

func (s *Server) didClose(p *protocol.DidCloseTextDocumentParams) error {
	path := pathOf(p.TextDocument.URI)
	s.change(func(st *state) { st.view = st.view.Without(path) })
	s.checker.Forget(path)
	s.edited(path)
	return nil
}

// hold takes a text that the editor holds.
func (s *Server) hold(f *core.File) {
	s.change(func(st *state) { st.view = st.view.With(f) })
	s.edited(f.Path)
}

// edited stops what has become worthless and has what is affected checked anew.
func (s *Server) edited(path string) {
	s.checker.Edited(path)
	s.change(func(st *state) {
		close(st.changed)
		st.changed = make(chan struct{})
	})
	st := s.now()
	if s.usedByOthers(st.view, path) {
		s.refresh(st.client)
	}
	s.publish.poke(path)
}

// usedByOthers reports whether an open text was checked with this one.
func (s *Server) usedByOthers(v *core.View, path string) bool {
	for _, other := range v.Opened() {
		if last := s.checker.Last(other); other != path && last != nil && last.Reads(path) {
			return true
		}
	}
	return false
}

// refresh has the client ask again for what hangs on more than the text that
// was edited.
func (s *Server) refresh(c client) {
	for _, ask := range []struct {
		can    bool
		method string
	}{
		{c.refreshFindings && c.pulls, protocol.MethodWorkspaceDiagnosticRefresh},
		{c.refreshHints, protocol.MethodWorkspaceInlayHintRefresh},
		{c.refreshLenses, protocol.MethodWorkspaceCodeLensRefresh},
		{c.refreshTokens, protocol.MethodWorkspaceSemanticTokensRefresh},
	} {
		if ask.can {
			s.conn.ask(ask.method, nil)
		}
	}
}

// changedPaths are the files that changed on the disk.
func changedPaths(list []protocol.FileEvent) []string {
	var out []string
	for _, e := range list {
		out = append(out, pathOf(e.URI))
	}
	return out
}
