package lsp

import (
	"context"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() {
	onCall(protocol.MethodTextDocumentDocumentSymbol, documentSymbols)
	onCall(protocol.MethodWorkspaceSymbol, workspaceSymbols)
}

var symbolKinds = map[core.Sort]protocol.SymbolKind{
	core.Harness: protocol.SymbolKindModule, core.Zone: protocol.SymbolKindNamespace, core.Place: protocol.SymbolKindKey,
	core.Bundle: protocol.SymbolKindStruct, core.Device: protocol.SymbolKindObject, core.Wire: protocol.SymbolKindField,
	core.Mode: protocol.SymbolKindEvent, core.Part: protocol.SymbolKindClass,
}

func documentSymbols(_ context.Context, r *request, p *protocol.DocumentSymbolParams) (protocol.DocumentSymbolSlice, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	list := protocol.DocumentSymbolSlice{}
	for _, s := range core.Symbols(f) {
		list = append(list, protocol.DocumentSymbol{
			Name: s.Name, Detail: ptr(s.Detail), Kind: symbolKinds[s.Sort],
			Range: r.rangeOf(f, s.Span), SelectionRange: r.rangeOf(f, s.Word),
		})
	}
	return list, nil
}

func workspaceSymbols(_ context.Context, r *request, p *protocol.WorkspaceSymbolParams) (protocol.SymbolInformationSlice, error) {
	list := protocol.SymbolInformationSlice{}
	for _, s := range r.view.Search(p.Query) {
		info := protocol.SymbolInformation{Location: r.location(core.Spot{File: s.File, Span: s.Word})}
		info.Name, info.Kind, info.ContainerName = s.Name, symbolKinds[s.Sort], ptr(s.Detail)
		list = append(list, info)
	}
	return list, nil
}
