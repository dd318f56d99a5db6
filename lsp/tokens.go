package lsp

import (
	"context"

	"go.lsp.dev/protocol"

	"hame/lang/source"
	"hame/lsp/core"
)

func init() {
	onCall(protocol.MethodTextDocumentSemanticTokensFull, tokensFull)
	onCall(protocol.MethodTextDocumentSemanticTokensRange, tokensRange)
}

func tokensFull(_ context.Context, r *request, p *protocol.SemanticTokensParams) (*protocol.SemanticTokens, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	return r.tokens(f, source.Span{End: len(f.Text)}), nil
}

func tokensRange(_ context.Context, r *request, p *protocol.SemanticTokensRangeParams) (*protocol.SemanticTokens, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	return r.tokens(f, r.span(f, p.Range)), nil
}

// tokens writes each token relative to the one before (LSP 3.17, "Semantic
// Tokens").
func (r *request) tokens(f *core.File, within source.Span) *protocol.SemanticTokens {
	out := &protocol.SemanticTokens{Data: []uint32{}}
	var last protocol.Position
	for _, t := range r.view.Tokens(f, within) {
		at := r.rangeOf(f, t.Span)
		line, char := at.Start.Line-last.Line, at.Start.Character
		if line == 0 {
			char -= last.Character
		}
		last = at.Start
		out.Data = append(out.Data, line, char, at.End.Character-at.Start.Character, uint32(t.Type), uint32(t.Modifiers))
	}
	return out
}
