package lsp

import (
	"context"

	"go.lsp.dev/protocol"

	format "hame/fmt"
	"hame/lang/source"
	"hame/lsp/core"
)

func init() {
	onCall(protocol.MethodTextDocumentFormatting, formatting)
	onCall(protocol.MethodTextDocumentRangeFormatting, rangeFormatting)
	onCall(protocol.MethodTextDocumentOnTypeFormatting, onTypeFormatting)
}

func formatting(_ context.Context, r *request, p *protocol.DocumentFormattingParams) ([]protocol.TextEdit, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	return r.formatted(f, source.Span{End: len(f.Text)})
}

func rangeFormatting(_ context.Context, r *request, p *protocol.DocumentRangeFormattingParams) ([]protocol.TextEdit, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	return r.formatted(f, r.span(f, p.Range))
}

// onTypeFormatting formats what was just closed: the statement above a new
// line, or the block that a brace ends. What is in one mistake or another stays
// as it is.
func onTypeFormatting(_ context.Context, r *request, p *protocol.DocumentOnTypeFormattingParams) ([]protocol.TextEdit, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	at := r.offset(f, p.Position)
	line := f.Lines().LineOf(at)
	if p.Ch == "\n" && line > 0 {
		at = f.Lines().End(line - 1)
	}
	edits, err := r.formatted(f, source.Span{Start: at, End: at})
	if p.Ch != "\n" {
		return edits, err
	}
	return above(edits, p.Position.Line), err
}

// above keeps the edits that leave the line of the cursor alone.
func above(edits []protocol.TextEdit, line uint32) []protocol.TextEdit {
	kept := []protocol.TextEdit{}
	for _, e := range edits {
		if e.Range.End.Line < line {
			kept = append(kept, e)
		}
	}
	return kept
}

func (r *request) formatted(f *core.File, span source.Span) ([]protocol.TextEdit, error) {
	list, err := format.Range(f.Tree().Source, span)
	if err != nil {
		return nil, err
	}
	edits := []protocol.TextEdit{}
	for _, e := range list {
		edits = append(edits, protocol.TextEdit{Range: r.rangeOf(f, e.Span), NewText: e.Text})
	}
	return edits, nil
}
