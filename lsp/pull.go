package lsp

import (
	"context"
	"encoding/json"
	"errors"
	"hash/fnv"
	"strconv"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

func init() { onCall(protocol.MethodTextDocumentDiagnostic, pulled) }

// pulled answers a client that asks for the findings of a file: those of its
// own check, and of every open harness that uses it.
func pulled(ctx context.Context, r *request, p *protocol.DocumentDiagnosticParams) (protocol.DocumentDiagnosticReport, error) {
	f, err := r.file(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	passes, err := r.passesOf(ctx, f)
	if errors.Is(err, protocol.ErrContentModified) {
		return nil, retrigger()
	}
	if err != nil {
		return nil, err
	}
	list := []protocol.Diagnostic{}
	if all := r.collect(passes)[f.Path]; all != nil && all.list != nil {
		list = all.list
	}
	id := digest(list)
	if p.PreviousResultID != nil && *p.PreviousResultID == id {
		return &protocol.RelatedUnchangedDocumentDiagnosticReport{
			UnchangedDocumentDiagnosticReport: protocol.UnchangedDocumentDiagnosticReport{Kind: "unchanged", ResultID: id},
		}, nil
	}
	return &protocol.RelatedFullDocumentDiagnosticReport{
		FullDocumentDiagnosticReport: protocol.FullDocumentDiagnosticReport{Kind: "full", ResultID: &id, Items: list},
	}, nil
}

// passesOf are the checks in which a file takes part.
func (r *request) passesOf(ctx context.Context, f *core.File) ([]*core.Pass, error) {
	first, err := r.pass(ctx, f)
	if err != nil {
		return nil, err
	}
	list := []*core.Pass{first}
	if f.IsHarness() {
		return list, nil
	}
	for _, path := range r.view.Opened() {
		other := r.view.Open(path)
		if path == f.Path || !r.uses(other, f) {
			continue
		}
		p, err := r.pass(ctx, other)
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	return list, nil
}

func (r *request) uses(user, lib *core.File) bool {
	for _, f := range r.view.Scope(user) {
		if f.Path == lib.Path {
			return true
		}
	}
	return false
}

// retrigger has the client ask again: the text has changed meanwhile.
func retrigger() error {
	data, err := json.Marshal(map[string]bool{"retriggerRequest": true})
	if err != nil {
		return err
	}
	return &jsonrpc2.Error{Code: codeServerCancelled, Message: "the text has changed meanwhile", Data: data}
}

// digest is a name for a list of findings: the same for the same list.
func digest(list []protocol.Diagnostic) string {
	h := fnv.New64a()
	for i := range list {
		if raw, err := protocol.Marshal(&list[i]); err == nil {
			_, _ = h.Write(raw) // a hash takes everything
		}
	}
	return strconv.FormatUint(h.Sum64(), 36)
}
