package lsp

import (
	"context"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() {
	onNotification(protocol.MethodInitialized, (*Server).initialized)
	onNotification(protocol.MethodSetTrace, func(*Server, *protocol.SetTraceParams) error { return nil })
}

// initialize takes what the client can do and says what is done here. It is
// done while reading, so that what follows finds it done.
func (s *Server) initialize(params []byte) work {
	if !s.at(fresh) {
		return failing(jsonrpc2.InvalidRequest, "initialize comes once")
	}
	var p protocol.InitializeParams
	if err := read(params, &p); err != nil {
		return func(context.Context) (any, error) { return nil, err }
	}
	c := clientOf(&p.Capabilities)
	s.change(func(st *state) {
		st.client = c
		st.settings = settingsOf(p.InitializationOptions, st.settings)
		st.view = st.view.InFolders(foldersOf(&p))
	})
	s.enter(running)
	return func(context.Context) (any, error) { return abilities(c), nil }
}

func foldersOf(p *protocol.InitializeParams) []string {
	var list []string
	folders, _ := p.WorkspaceFolders.Get()
	for _, f := range folders {
		list = append(list, pathOf(f.URI))
	}
	//lint:ignore SA1019 a client without folders says its root in no other way
	if root := p.RootURI; len(list) == 0 && root != nil && *root != "" {
		list = append(list, pathOf(*root))
	}
	return list
}

// initialized asks the client to watch the files that it does not hold.
func (s *Server) initialized(*protocol.InitializedParams) error {
	if !s.now().client.watches {
		return nil
	}
	options, err := protocol.Marshal(&protocol.DidChangeWatchedFilesRegistrationOptions{
		Watchers: []protocol.FileSystemWatcher{{GlobPattern: protocol.Pattern("**/*.hame")}},
	})
	if err != nil {
		return err
	}
	s.conn.ask(protocol.MethodClientRegisterCapability, &protocol.RegistrationParams{Registrations: []protocol.Registration{
		{ID: "files", Method: protocol.MethodWorkspaceDidChangeWatchedFiles, RegisterOptions: options},
	}})
	return nil
}

// abilities is what the server can do for a client.
func abilities(c client) *protocol.InitializeResult {
	out := &protocol.InitializeResult{ServerInfo: protocol.ServerInfo{Name: "hame", Version: protocol.NewOptional(version)}}
	a := &out.Capabilities
	a.PositionEncoding = encodingNames[c.encoding]
	a.TextDocumentSync = &protocol.TextDocumentSyncOptions{
		OpenClose: ptr(true), Change: ptr(protocol.TextDocumentSyncKindIncremental), Save: protocol.Boolean(true),
	}
	a.Workspace = &protocol.WorkspaceOptions{
		WorkspaceFolders:    &protocol.WorkspaceFoldersServerCapabilities{Supported: ptr(true), ChangeNotifications: protocol.Boolean(true)},
		TextDocumentContent: &protocol.TextDocumentContentOptions{Schemes: []string{scheme}},
	}
	if c.pulls {
		a.DiagnosticProvider = &protocol.DiagnosticOptions{Identifier: ptr("hame"), InterFileDependencies: true, WorkspaceDiagnostics: true}
	}
	answers(a)
	edits(a)
	return out
}

// answers are the questions about a text.
func answers(a *protocol.ServerCapabilities) {
	a.HoverProvider = protocol.Boolean(true)
	a.CompletionProvider = &protocol.CompletionOptions{TriggerCharacters: []string{".", "\"", "/"}}
	a.SignatureHelpProvider = &protocol.SignatureHelpOptions{TriggerCharacters: []string{" "}, RetriggerCharacters: []string{" "}}
	a.DefinitionProvider = protocol.Boolean(true)
	a.ReferencesProvider = protocol.Boolean(true)
	a.DocumentHighlightProvider = protocol.Boolean(true)
	a.DocumentSymbolProvider = protocol.Boolean(true)
	a.WorkspaceSymbolProvider = protocol.Boolean(true)
	a.FoldingRangeProvider = protocol.Boolean(true)
	a.SelectionRangeProvider = protocol.Boolean(true)
	a.InlayHintProvider = protocol.Boolean(true)
	a.CodeLensProvider = &protocol.CodeLensOptions{}
	a.CallHierarchyProvider = protocol.Boolean(true)
	a.SemanticTokensProvider = &protocol.SemanticTokensOptions{
		Legend: protocol.SemanticTokensLegend{TokenTypes: core.TokenTypes(), TokenModifiers: core.TokenModifiers()},
		Full:   protocol.Boolean(true),
		Range:  protocol.ClientSemanticTokensRequestOptionsRange(protocol.Boolean(true)),
	}
}

// edits are the changes that are offered.
func edits(a *protocol.ServerCapabilities) {
	a.RenameProvider = &protocol.RenameOptions{PrepareProvider: ptr(true)}
	a.DocumentFormattingProvider = protocol.Boolean(true)
	a.DocumentRangeFormattingProvider = protocol.Boolean(true)
	a.DocumentOnTypeFormattingProvider = protocol.DocumentOnTypeFormattingOptions{
		FirstTriggerCharacter: "\n", MoreTriggerCharacter: []string{"}"},
	}
	a.CodeActionProvider = &protocol.CodeActionOptions{CodeActionKinds: []protocol.CodeActionKind{
		protocol.CodeActionKindQuickFix, protocol.CodeActionKindSourceFixAll,
	}, ResolveProvider: ptr(true)}
}
