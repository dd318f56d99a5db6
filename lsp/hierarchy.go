package lsp

import (
	"context"
	"encoding/json"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

// The call hierarchy is that of what feeds what: a caller feeds, what is called
// is fed.
func init() {
	onCall(protocol.MethodTextDocumentPrepareCallHierarchy, prepareFeeds)
	onCall(protocol.MethodCallHierarchyIncomingCalls, fedBy)
	onCall(protocol.MethodCallHierarchyOutgoingCalls, feedsWhat)
}

// feedData finds an item again: its harness and its name there.
type feedData struct {
	Root string `json:"root"`
	Name string `json:"name"`
}

func prepareFeeds(ctx context.Context, r *request, p *protocol.CallHierarchyPrepareParams) ([]protocol.CallHierarchyItem, error) {
	f, offset, err := r.at(p.TextDocumentPositionParams)
	if err != nil {
		return nil, err
	}
	pass, err := r.pass(ctx, f)
	if err != nil {
		return nil, err
	}
	feed, ok := r.view.FeedAt(f, offset, pass)
	if !ok {
		return []protocol.CallHierarchyItem{}, nil
	}
	return []protocol.CallHierarchyItem{r.feedItem(pass, feed)}, nil
}

func (r *request) feedItem(pass *core.Pass, f core.Feed) protocol.CallHierarchyItem {
	item := protocol.CallHierarchyItem{
		Name: f.Name, Kind: symbolKinds[f.Sort], Detail: ptr(f.Detail), URI: r.uris.of(f.Spot.File.Path),
		Range: r.rangeOf(f.Spot.File, f.Whole), SelectionRange: r.rangeOf(f.Spot.File, f.Spot.Span),
	}
	if raw, err := json.Marshal(feedData{pass.Root.Path, f.Name}); err == nil {
		item.Data = raw
	}
	return item
}

// feeds lists what is next to an item, upstream or down.
func (r *request) feeds(ctx context.Context, item *protocol.CallHierarchyItem, upstream bool) (*core.Pass, []core.Feed, error) {
	var data feedData
	if json.Unmarshal(item.Data, &data) != nil {
		return nil, nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, "the item is none of this server's")
	}
	pass, err := r.server.checker.Pass(ctx, r.view, data.Root)
	if err != nil {
		return nil, nil, err
	}
	return pass, pass.Feeds(data.Name, upstream), nil
}

func (r *request) over(f core.Feed) []protocol.Range {
	list := []protocol.Range{}
	for _, spot := range f.Over {
		list = append(list, r.rangeOf(spot.File, spot.Span))
	}
	return list
}

func fedBy(ctx context.Context, r *request, p *protocol.CallHierarchyIncomingCallsParams) ([]protocol.CallHierarchyIncomingCall, error) {
	pass, feeds, err := r.feeds(ctx, &p.Item, true)
	list := []protocol.CallHierarchyIncomingCall{}
	for _, f := range feeds {
		list = append(list, protocol.CallHierarchyIncomingCall{From: r.feedItem(pass, f), FromRanges: r.over(f)})
	}
	return list, err
}

func feedsWhat(ctx context.Context, r *request, p *protocol.CallHierarchyOutgoingCallsParams) ([]protocol.CallHierarchyOutgoingCall, error) {
	pass, feeds, err := r.feeds(ctx, &p.Item, false)
	list := []protocol.CallHierarchyOutgoingCall{}
	for _, f := range feeds {
		list = append(list, protocol.CallHierarchyOutgoingCall{To: r.feedItem(pass, f), FromRanges: r.over(f)})
	}
	return list, err
}
