package lsp

import (
	"context"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentInlayHint, inlayHints) }

func inlayHints(ctx context.Context, r *request, p *protocol.InlayHintParams) ([]protocol.InlayHint, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	list := []protocol.InlayHint{}
	if !r.settings.WireHints && !r.settings.LoadHints {
		return list, nil
	}
	pass, err := r.pass(ctx, f)
	if err != nil {
		return nil, err
	}
	var hints []core.Hint
	if r.settings.WireHints {
		hints = append(hints, pass.WireHints(f.Path, r.span(f, p.Range))...)
	}
	if r.settings.LoadHints {
		hints = append(hints, pass.LoadHints(f.Path, r.span(f, p.Range))...)
	}
	for _, h := range hints {
		list = append(list, protocol.InlayHint{
			Position: r.position(f, h.Offset), Label: protocol.String(h.Label), PaddingLeft: ptr(true), PaddingRight: ptr(true),
			Tooltip: r.markup(h.Note, r.client.markdownHover),
		})
	}
	return list, nil
}
