package lsp

import (
	"context"

	"go.lsp.dev/protocol"
)

func init() { onCall(protocol.MethodTextDocumentCodeLens, codeLenses) }

// codeLenses are lines to read, so their command is none.
func codeLenses(ctx context.Context, r *request, p *protocol.CodeLensParams) ([]protocol.CodeLens, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	list := []protocol.CodeLens{}
	if !r.settings.Lenses {
		return list, nil
	}
	pass, err := r.pass(ctx, f)
	if err != nil {
		return nil, err
	}
	for _, l := range pass.Lenses(f.Path) {
		list = append(list, protocol.CodeLens{Range: r.rangeOf(f, l.Span), Command: protocol.Command{Title: l.Title}})
	}
	return list, nil
}
