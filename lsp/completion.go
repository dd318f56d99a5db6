package lsp

import (
	"context"
	"fmt"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentCompletion, completion) }

var itemKinds = map[core.ItemKind]protocol.CompletionItemKind{
	core.KeywordItem: protocol.CompletionItemKindKeyword, core.KindItem: protocol.CompletionItemKindClass,
	core.SettingItem: protocol.CompletionItemKindProperty, core.WordItem: protocol.CompletionItemKindEnumMember,
	core.NameItem: protocol.CompletionItemKindVariable, core.TerminalItem: protocol.CompletionItemKindField,
	core.ValueItem: protocol.CompletionItemKindValue, core.UnitItem: protocol.CompletionItemKindUnit,
	core.ColourItem: protocol.CompletionItemKindColor, core.RuleItem: protocol.CompletionItemKindReference,
	core.FileItem: protocol.CompletionItemKindFile, core.SnippetItem: protocol.CompletionItemKindSnippet,
}

// completion never waits for a check: what the last one found is good enough
// for the order of proposals.
func completion(_ context.Context, r *request, p *protocol.CompletionParams) (*protocol.CompletionList, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	c := r.view.Complete(f, offset, r.server.checker.Last(f.Path))
	out := &protocol.CompletionList{Items: []protocol.CompletionItem{}}
	at := r.rangeOf(f, c.Span)
	for i := range c.Items {
		if item := &c.Items[i]; !item.Snippet || r.client.snippets {
			out.Items = append(out.Items, r.item(item, at))
		}
	}
	return out, nil
}

func (r *request) item(i *core.Item, at protocol.Range) protocol.CompletionItem {
	out := protocol.CompletionItem{
		Label: i.Label, Kind: itemKinds[i.Kind],
		SortText: protocol.NewOptional(fmt.Sprintf("%04d", i.Rank+1000)),
		TextEdit: &protocol.TextEdit{Range: at, NewText: i.Insert},
	}
	if i.Detail != "" {
		out.Detail = protocol.NewOptional(i.Detail)
	}
	if !i.Note.Empty() {
		out.Documentation = r.markup(i.Note, r.client.markdownItems)
	}
	if i.Snippet {
		out.InsertTextFormat = protocol.InsertTextFormatSnippet
	}
	return out
}
