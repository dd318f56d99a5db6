package lsp

import (
	"math"
	"path/filepath"
	"strings"
	"sync"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"hame/lang/source"
	"hame/lsp/core"
	"hame/lsp/text"
)

// offset is where a position lies in a file.
func (s *state) offset(f *core.File, p protocol.Position) int {
	return f.Lines().Offset(pointOf(p), s.client.encoding)
}

func pointOf(p protocol.Position) text.Point {
	return text.Point{Line: bounded(p.Line), Char: bounded(p.Character)}
}

func bounded(n uint32) int { return int(min(n, math.MaxInt32)) }

// span is what a range covers in a file.
func (s *state) span(f *core.File, r protocol.Range) source.Span {
	start, end := s.offset(f, r.Start), s.offset(f, r.End)
	return source.Span{Start: min(start, end), End: max(start, end)}
}

func (s *state) position(f *core.File, offset int) protocol.Position {
	p := f.Lines().Point(offset, s.client.encoding)
	return protocol.Position{Line: uint32(p.Line), Character: uint32(p.Char)}
}

func (s *state) rangeOf(f *core.File, span source.Span) protocol.Range {
	return protocol.Range{Start: s.position(f, span.Start), End: s.position(f, span.End)}
}

func (s *state) location(at core.Spot) protocol.Location {
	return protocol.Location{URI: s.uris.of(at.File.Path), Range: s.rangeOf(at.File, at.Span)}
}

// pathOf is a document's path: absolute with slashes, or the URI itself where
// it is no file.
func pathOf(u uri.URI) string {
	if u.IsFile() {
		return filepath.ToSlash(filepath.Clean(u.FsPath()))
	}
	return string(u)
}

// uriBook remembers how the client writes the URIs of its documents, so that it
// is answered in its own hand.
type uriBook struct {
	mu sync.Mutex
	by map[string]uri.URI
}

func newURIBook() *uriBook { return &uriBook{by: map[string]uri.URI{}} }

func (b *uriBook) note(path string, u uri.URI) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.by[path] = u
}

func (b *uriBook) forget(path string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	delete(b.by, path)
}

func (b *uriBook) of(path string) uri.URI {
	b.mu.Lock()
	defer b.mu.Unlock()
	if u, ok := b.by[path]; ok {
		return u
	}
	if strings.HasPrefix(path, "/") || filepath.IsAbs(filepath.FromSlash(path)) {
		return uri.File(filepath.FromSlash(path))
	}
	return uri.URI(path)
}
