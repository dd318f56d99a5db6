package lsp

import (
	"context"

	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodWorkspaceDiagnostic, pulledAll) }

// pulledAll answers a client that asks for the findings of all files in its
// folders: of those that it does not hold, for it asks for the others one by one.
// They are checked while there is nothing else to do; an edit ends that, and what
// was checked by then is kept for when the client asks again.
func pulledAll(ctx context.Context, r *request, p *protocol.WorkspaceDiagnosticParams) (*protocol.WorkspaceDiagnosticReport, error) {
	ctx, cancel := r.untilEdited(ctx)
	defer cancel()
	files := r.view.Closed()
	passes, err := r.server.closed.Passes(ctx, r.view, files, r.server.checker)
	if err != nil {
		return nil, retrigger()
	}
	for _, path := range r.view.Opened() { // what a harness that is open finds in its libraries
		if last := r.server.checker.Last(path); last != nil {
			passes = append(passes, last)
		}
	}
	known := map[string]string{}
	for _, id := range p.PreviousResultIds {
		known[pathOf(id.URI)] = id.Value
	}
	out := &protocol.WorkspaceDiagnosticReport{Items: []protocol.WorkspaceDocumentDiagnosticReport{}}
	all := r.collect(passes)
	for _, f := range files {
		out.Items = append(out.Items, r.report(f, all[f.Path], known[f.Path]))
	}
	return out, nil
}

// untilEdited is a context that the next edit ends.
func (r *request) untilEdited(ctx context.Context) (context.Context, context.CancelFunc) {
	ctx, cancel := context.WithCancel(ctx)
	go func() {
		select {
		case <-r.changed:
			cancel()
		case <-ctx.Done():
		}
	}()
	return ctx, cancel
}

// report is what was found in one file, or that it is what the client knows.
func (r *request) report(f *core.File, all *found, known string) protocol.WorkspaceDocumentDiagnosticReport {
	list := []protocol.Diagnostic{}
	if all != nil && all.list != nil {
		list = all.list
	}
	id := digest(list)
	if id == known {
		out := &protocol.WorkspaceUnchangedDocumentDiagnosticReport{URI: r.uris.of(f.Path)}
		out.UnchangedDocumentDiagnosticReport = protocol.UnchangedDocumentDiagnosticReport{Kind: "unchanged", ResultID: id}
		return out
	}
	out := &protocol.WorkspaceFullDocumentDiagnosticReport{URI: r.uris.of(f.Path)}
	out.FullDocumentDiagnosticReport = protocol.FullDocumentDiagnosticReport{Kind: "full", ResultID: &id, Items: list}
	return out
}
