package lsp

import (
	"context"

	"go.lsp.dev/protocol"
)

func init() {
	onCall(protocol.MethodTextDocumentRename, rename)
	onCall(protocol.MethodTextDocumentPrepareRename, prepareRename)
}

func prepareRename(_ context.Context, r *request, p *protocol.PrepareRenameParams) (*protocol.PrepareRenamePlaceholder, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	m, err := r.view.Renamable(f, offset)
	if err != nil {
		return nil, err
	}
	return &protocol.PrepareRenamePlaceholder{Range: r.rangeOf(f, m.Span), Placeholder: m.Name}, nil
}

func rename(_ context.Context, r *request, p *protocol.RenameParams) (*protocol.WorkspaceEdit, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	edits, err := r.view.Rename(f, offset, p.NewName)
	if err != nil {
		return nil, err
	}
	return r.workspaceEdit(edits), nil
}
