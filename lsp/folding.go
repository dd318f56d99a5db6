package lsp

import (
	"context"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentFoldingRange, folding) }

func folding(_ context.Context, r *request, p *protocol.FoldingRangeParams) ([]protocol.FoldingRange, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	list := []protocol.FoldingRange{}
	for _, x := range core.Folds(f) {
		fold := protocol.FoldingRange{StartLine: uint32(x.FromLine), EndLine: uint32(x.ToLine), Kind: protocol.FoldingRangeKindRegion}
		if x.Comment {
			fold.Kind = protocol.FoldingRangeKindComment
		}
		list = append(list, fold)
	}
	return list, nil
}
