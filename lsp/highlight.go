package lsp

import (
	"context"

	"go.lsp.dev/protocol"
)

func init() { onCall(protocol.MethodTextDocumentDocumentHighlight, highlight) }

func highlight(_ context.Context, r *request, p *protocol.DocumentHighlightParams) ([]protocol.DocumentHighlight, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	list := []protocol.DocumentHighlight{}
	for _, m := range r.view.Highlights(f, offset) {
		kind := protocol.DocumentHighlightKindRead
		if m.Declares {
			kind = protocol.DocumentHighlightKindWrite
		}
		list = append(list, protocol.DocumentHighlight{Range: r.rangeOf(f, m.Span), Kind: kind})
	}
	return list, nil
}
