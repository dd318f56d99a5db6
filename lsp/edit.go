package lsp

import (
	"slices"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"hame/lsp/core"
)

// workspaceEdit is edits as the client takes them: with the versions of what it
// holds, where it knows versions.
func (r *request) workspaceEdit(edits []core.Edit) *protocol.WorkspaceEdit {
	var files []*core.File
	by := map[string][]protocol.TextEdit{}
	for _, e := range edits {
		if by[e.File.Path] == nil {
			files = append(files, e.File)
		}
		by[e.File.Path] = append(by[e.File.Path], protocol.TextEdit{Range: r.rangeOf(e.File, e.Span), NewText: e.Text})
	}
	slices.SortFunc(files, func(a, b *core.File) int {
		if a.Path < b.Path {
			return -1
		}
		return 1
	})
	out := &protocol.WorkspaceEdit{}
	for _, f := range files {
		if r.client.documentChanges {
			out.DocumentChanges = append(out.DocumentChanges, r.documentEdit(f, by[f.Path]))
			continue
		}
		if out.Changes == nil {
			out.Changes = map[uri.URI][]protocol.TextEdit{}
		}
		out.Changes[r.uris.of(f.Path)] = by[f.Path]
	}
	return out
}

func (r *request) documentEdit(f *core.File, edits []protocol.TextEdit) *protocol.TextDocumentEdit {
	d := &protocol.TextDocumentEdit{}
	d.TextDocument.URI = r.uris.of(f.Path)
	if open := r.view.Open(f.Path); open != nil {
		d.TextDocument.Version = ptr(open.Version)
	}
	for i := range edits {
		d.Edits = append(d.Edits, &edits[i])
	}
	return d
}
