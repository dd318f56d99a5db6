package lsp

import (
	"context"

	"go.lsp.dev/protocol"
)

func init() { onCall(protocol.MethodTextDocumentReferences, references) }

func references(_ context.Context, r *request, p *protocol.ReferenceParams) ([]protocol.Location, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	list := []protocol.Location{}
	for _, spot := range r.view.References(f, offset, p.Context.IncludeDeclaration) {
		list = append(list, r.location(spot))
	}
	return list, nil
}
