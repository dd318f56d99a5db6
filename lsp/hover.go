package lsp

import (
	"context"
	"errors"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentHover, hover) }

func hover(ctx context.Context, r *request, p *protocol.HoverParams) (*protocol.Hover, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	pass, err := r.passIfAny(ctx, f)
	if err != nil {
		return nil, err
	}
	note, span := r.view.Hover(f, offset, pass)
	if note.Empty() {
		return nil, nil
	}
	return &protocol.Hover{Contents: r.markup(note, r.client.markdownHover), Range: ptr(r.rangeOf(f, span))}, nil
}

// passIfAny is the check of a file; nil where an edit came between, so that
// what hangs on no figures can be said all the same.
func (r *request) passIfAny(ctx context.Context, f *core.File) (*core.Pass, error) {
	pass, err := r.pass(ctx, f)
	if errors.Is(err, protocol.ErrContentModified) {
		return nil, nil
	}
	return pass, err
}

// markup is a note as the client can show it.
func (r *request) markup(n *core.Note, markdown bool) *protocol.MarkupContent {
	if markdown {
		return &protocol.MarkupContent{Kind: protocol.MarkupKindMarkdown, Value: n.Markdown()}
	}
	return &protocol.MarkupContent{Kind: protocol.MarkupKindPlainText, Value: n.Plain()}
}
