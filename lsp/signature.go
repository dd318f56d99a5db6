package lsp

import (
	"context"

	"go.lsp.dev/protocol"
)

func init() { onCall(protocol.MethodTextDocumentSignatureHelp, signature) }

func signature(_ context.Context, r *request, p *protocol.SignatureHelpParams) (*protocol.SignatureHelp, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	s := r.view.Signature(f, offset)
	if s == nil {
		return nil, nil
	}
	info := protocol.SignatureInformation{Label: s.Label}
	if !s.Note.Empty() {
		info.Documentation = r.markup(s.Note, r.client.markdownHover)
	}
	for _, span := range s.Params {
		info.Parameters = append(info.Parameters, protocol.ParameterInformation{Label: protocol.String(s.Label[span.Start:span.End])})
	}
	out := &protocol.SignatureHelp{Signatures: []protocol.SignatureInformation{info}, ActiveSignature: ptr(uint32(0))}
	if s.Active >= 0 {
		out.ActiveParameter = protocol.NewNullable(uint32(s.Active))
	}
	return out, nil
}
