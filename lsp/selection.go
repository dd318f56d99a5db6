package lsp

import (
	"context"
	"slices"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentSelectionRange, selection) }

func selection(_ context.Context, r *request, p *protocol.SelectionRangeParams) ([]protocol.SelectionRange, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	list := []protocol.SelectionRange{}
	for _, at := range p.Positions {
		var outer *protocol.SelectionRange
		for _, span := range slices.Backward(core.Selections(f, r.offset(f, at))) {
			outer = &protocol.SelectionRange{Range: r.rangeOf(f, span), Parent: outer}
		}
		list = append(list, *outer)
	}
	return list, nil
}
