package core

import (
	"path"
	"strings"
	"sync"
	"sync/atomic"

	"hame/lang/parts"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lsp/text"
)

// File is one text. It never changes; an edit makes another one.
type File struct {
	Path    string // absolute, with slashes; or the name of a library in the program
	Text    string
	Version int32 // as the editor counts; 0 where it does not hold the text

	lines func() *text.Lines
	tree  func() *syntax.File
	// known is the file's own tree once it was read, and until then that of the
	// last text before it that was. So no more than one old tree is held, however
	// many edits nobody looks at.
	known atomic.Pointer[syntax.File]
}

// NewFile makes a file of a text. It is read when somebody asks.
func NewFile(path, content string, version int32) *File { return fileFrom(nil, path, content, version) }

// Edited is the file with another text: what has not changed is not read again.
func (f *File) Edited(content string, version int32) *File {
	return fileFrom(f.known.Load(), f.Path, content, version)
}

func fileFrom(before *syntax.File, path, content string, version int32) *File {
	f := &File{Path: path, Text: content, Version: version}
	f.known.Store(before)
	f.lines = sync.OnceValue(func() *text.Lines { return text.NewLines(content) })
	f.tree = sync.OnceValue(func() *syntax.File {
		tree := syntax.Again(f.known.Load(), source.New(base(path), content))
		f.known.Store(tree)
		return tree
	})
	return f
}

// Lines knows where the file's lines start.
func (f *File) Lines() *text.Lines { return f.lines() }

// Tree is the file, read.
func (f *File) Tree() *syntax.File { return f.tree() }

// Slice is the text of a span.
func (f *File) Slice(s source.Span) string { return f.Tree().Source.Slice(s) }

// ReadOnly reports whether the file is a library that ships in the program.
func (f *File) ReadOnly() bool { return standard(f.Path) }

// IsHarness reports whether the file declares a harness, which a library does
// not.
func (f *File) IsHarness() bool {
	for _, d := range f.Tree().Decls {
		if _, ok := d.(*syntax.Harness); ok {
			return true
		}
	}
	return false
}

func standard(p string) bool { return strings.HasPrefix(p, parts.Prefix) }

// base is a path's last element, the name that findings show.
func base(p string) string {
	if standard(p) {
		return p
	}
	return path.Base(p)
}

// usePath is the path that a `use` in a file means.
func usePath(from, use string) string {
	switch {
	case standard(use):
		return use
	case standard(from):
		return parts.Prefix + strings.TrimSuffix(use, ".hame")
	}
	return path.Join(path.Dir(from), use)
}
