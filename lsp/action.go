package lsp

import (
	"context"
	"slices"
	"strings"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentCodeAction, codeActions) }

func codeActions(ctx context.Context, r *request, p *protocol.CodeActionParams) ([]protocol.CodeAction, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	passes, err := r.passesOf(ctx, f)
	if err != nil {
		return nil, err
	}
	list := []protocol.CodeAction{}
	seen := map[string]bool{}
	for _, pass := range passes {
		if asked(p.Context.Only, protocol.CodeActionKindQuickFix) {
			list = append(list, r.quickFixes(f, p, pass, seen)...)
			list = append(list, r.fillings(ctx, f, p, pass)...)
		}
		if all, ok := r.view.MendAll(f, pass); ok && slices.Contains(p.Context.Only, protocol.CodeActionKindSourceFixAll) {
			list = append(list, r.action(pass, all, protocol.CodeActionKindSourceFixAll))
		}
	}
	return list, nil
}

func (r *request) quickFixes(f *core.File, p *protocol.CodeActionParams, pass *core.Pass, seen map[string]bool) []protocol.CodeAction {
	var list []protocol.CodeAction
	for _, a := range r.view.Actions(f, r.span(f, p.Range), pass) {
		if !seen[a.Title] {
			seen[a.Title] = true
			list = append(list, r.action(pass, a, protocol.CodeActionKindQuickFix))
		}
	}
	return list
}

// asked reports whether a client wants actions of a kind: it may name the kind
// or one above it, and wants all where it names none.
func asked(only []protocol.CodeActionKind, kind protocol.CodeActionKind) bool {
	return len(only) == 0 || slices.ContainsFunc(only, func(k protocol.CodeActionKind) bool {
		return k == kind || k == "" || strings.HasPrefix(string(kind), string(k)+".")
	})
}

func (r *request) action(pass *core.Pass, a core.Action, kind protocol.CodeActionKind) protocol.CodeAction {
	out := protocol.CodeAction{Title: a.Title, Kind: &kind, Edit: r.workspaceEdit(a.Edits)}
	if a.Preferred {
		out.IsPreferred = ptr(true)
	}
	if a.Finding != nil && a.Finding.At.File != nil {
		if file := pass.FileOf(a.Finding.At.File); file != nil {
			out.Diagnostics = []protocol.Diagnostic{r.diagnostic(pass, file, a.Finding)}
		}
	}
	return out
}
