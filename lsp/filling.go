package lsp

import (
	"context"
	"encoding/json"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodCodeActionResolve, resolveFilling) }

// fillData finds an offer again: its harness and its wires.
type fillData struct {
	Root  string   `json:"root"`
	Wires []string `json:"wires"`
}

// fillings are the offers to choose gauges. To size takes many checks, so a
// client that can asks for the edit once one is taken.
func (r *request) fillings(ctx context.Context, f *core.File, p *protocol.CodeActionParams, pass *core.Pass) []protocol.CodeAction {
	offers := core.Fillings(f, r.span(f, p.Range), pass)
	var list []protocol.CodeAction
	var sized *core.Sizing
	for _, o := range offers {
		if r.client.resolves {
			list = append(list, r.offer(o, f))
			continue
		}
		if sized == nil {
			var err error
			if sized, err = r.view.Size(f, ended(ctx)); err != nil {
				return nil
			}
		}
		if a, err := sized.Fill(o); err == nil {
			list = append(list, r.action(pass, a, protocol.CodeActionKindQuickFix))
		}
	}
	return list
}

func ended(ctx context.Context) func() bool { return func() bool { return ctx.Err() != nil } }

// offer is an action without its edit.
func (r *request) offer(o core.Filling, f *core.File) protocol.CodeAction {
	a := protocol.CodeAction{Title: o.Title, Kind: ptr(protocol.CodeActionKindQuickFix)}
	if raw, err := json.Marshal(fillData{f.Path, o.Wires}); err == nil {
		a.Data = raw
	}
	return a
}

// resolveFilling works the edit of an offer out. Where there is none, the answer
// says why, for the client to show.
func resolveFilling(ctx context.Context, r *request, a *protocol.CodeAction) (*protocol.CodeAction, error) {
	var data fillData
	if len(a.Data) == 0 {
		return a, nil // it was whole
	}
	if json.Unmarshal(a.Data, &data) != nil {
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, "the action is none of this server's")
	}
	f, err := r.view.File(data.Root)
	if err != nil {
		return nil, err
	}
	sized, err := r.view.Size(f, ended(ctx))
	if err != nil {
		return nil, err
	}
	filled, err := sized.Fill(core.Filling{Title: a.Title, Wires: data.Wires})
	if err != nil {
		return nil, err
	}
	a.Edit = r.workspaceEdit(filled.Edits)
	return a, nil
}
