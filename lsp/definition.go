package lsp

import (
	"context"

	"go.lsp.dev/protocol"
)

func init() { onCall(protocol.MethodTextDocumentDefinition, definition) }

func definition(_ context.Context, r *request, p *protocol.DefinitionParams) (*protocol.Location, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	spot, ok := r.view.Definition(f, offset)
	if !ok {
		return nil, nil
	}
	return ptr(r.location(spot)), nil
}
