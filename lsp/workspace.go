package lsp

import (
	"context"
	"slices"
	"strings"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/check/rules"
	"hame/lang/parts"
	"hame/lsp/core"
)

func init() {
	onNotification(protocol.MethodWorkspaceDidChangeWatchedFiles, (*Server).watchedChanged)
	onNotification(protocol.MethodWorkspaceDidChangeWorkspaceFolders, (*Server).foldersChanged)
	onNotification(protocol.MethodWorkspaceDidChangeConfiguration, (*Server).configurationChanged)
	onCall(protocol.MethodWorkspaceTextDocumentContent, content)
}

// watchedChanged: what the editor holds wins over the disk, so only others
// count.
func (s *Server) watchedChanged(p *protocol.DidChangeWatchedFilesParams) error {
	changed := false
	for _, path := range changedPaths(p.Changes) {
		if s.now().view.Open(path) == nil {
			s.edited(path)
			changed = true
		}
	}
	if c := s.now().client; changed && c.refreshFindings && c.pulls {
		s.conn.ask(protocol.MethodWorkspaceDiagnosticRefresh, nil)
	}
	return nil
}

func (s *Server) foldersChanged(p *protocol.DidChangeWorkspaceFoldersParams) error {
	s.change(func(st *state) {
		folders := st.view.Folders()
		for _, f := range p.Event.Removed {
			folders = slices.DeleteFunc(folders, func(have string) bool { return have == pathOf(f.URI) })
		}
		for _, f := range p.Event.Added {
			folders = append(folders, pathOf(f.URI))
		}
		st.view = st.view.InFolders(folders)
	})
	return nil
}

func (s *Server) configurationChanged(p *protocol.DidChangeConfigurationParams) error {
	s.change(func(st *state) { st.settings = settingsOf(p.Settings, st.settings) })
	c := s.now().client
	if c.refreshHints {
		s.conn.ask(protocol.MethodWorkspaceInlayHintRefresh, nil)
	}
	if c.refreshLenses {
		s.conn.ask(protocol.MethodWorkspaceCodeLensRefresh, nil)
	}
	return nil
}

// scheme is that of what the program has inside: its libraries and the pages
// of its rules.
const scheme = "hame"

// Addresses of rules' pages. What they end in tells an editor that it is Markdown.
const (
	rulePrefix = parts.Prefix + "rules/"
	ruleSuffix = ".md"
)

// content is a text from inside the program (LSP 3.18).
func content(_ context.Context, r *request, p *protocol.TextDocumentContentParams) (*protocol.TextDocumentContentResult, error) {
	path := string(p.URI)
	if name, ok := strings.CutPrefix(path, rulePrefix); ok {
		if rule := rules.Find(strings.TrimSuffix(name, ruleSuffix)); rule != nil {
			return &protocol.TextDocumentContentResult{Text: core.RulePage(rule).Markdown()}, nil
		}
	}
	f, err := r.view.File(path)
	if err != nil || !f.ReadOnly() {
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, "there is nothing by the name of "+path)
	}
	return &protocol.TextDocumentContentResult{Text: f.Text}, nil
}
