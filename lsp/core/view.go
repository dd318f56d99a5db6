package core

import (
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"hame/lang/syntax"
)

// View is everything as it was at one moment: the texts that the editor holds,
// and what lies on the disk behind them. It never changes.
type View struct {
	open    map[string]*File
	folders []string
	disk    *disk
}

// NewView is the view of an editor that holds nothing yet.
func NewView() *View {
	return &View{open: map[string]*File{}, disk: &disk{kept: map[string]kept{}}}
}

// With is the view after a text was opened or changed.
func (v *View) With(f *File) *View {
	next := *v
	next.open = maps.Clone(v.open)
	next.open[f.Path] = f
	return &next
}

// Without is the view after a text was closed.
func (v *View) Without(p string) *View {
	next := *v
	next.open = maps.Clone(v.open)
	delete(next.open, p)
	return &next
}

// InFolders is the view with other folders open in the editor.
func (v *View) InFolders(folders []string) *View {
	next := *v
	next.folders = slices.Clone(folders)
	return &next
}

// Folders lists the folders that are open in the editor.
func (v *View) Folders() []string { return slices.Clone(v.folders) }

// Open is a text that the editor holds, or nil.
func (v *View) Open(p string) *File { return v.open[p] }

// Opened lists the paths of the texts that the editor holds, in order.
func (v *View) Opened() []string { return slices.Sorted(maps.Keys(v.open)) }

// File is a text by its path: as the editor holds it, else from the disk. The
// error is fs.ErrNotExist or fs.ErrPermission.
func (v *View) File(p string) (*File, error) {
	switch {
	case v.open[p] != nil:
		return v.open[p], nil
	case standard(p):
		return v.disk.standardFile(p)
	case !path.IsAbs(p) && !strings.Contains(p, ":/"):
		return nil, fs.ErrNotExist
	}
	return v.disk.read(p)
}

// library is a library's text, which must lie in the root file's folder, over
// links too.
func (v *View) library(dir, p string) (*File, error) {
	if f := v.open[p]; f != nil {
		return f, nil
	}
	if !standard(p) && !inside(dir, p) {
		return nil, fs.ErrPermission
	}
	return v.File(p)
}

// Known lists every harness file there is: those that the editor holds and
// those in its folders, in order of path.
func (v *View) Known() []*File {
	paths := map[string]bool{}
	for p := range v.open {
		paths[p] = true
	}
	for _, dir := range v.folders {
		for _, p := range harnessFiles(dir) {
			paths[p] = true
		}
	}
	var list []*File
	for _, p := range slices.Sorted(maps.Keys(paths)) {
		if f, err := v.File(p); err == nil {
			list = append(list, f)
		}
	}
	return list
}

// mostInScope is how many libraries are followed from one file.
const mostInScope = 64

// Scope lists a file and the libraries that it uses, theirs included.
func (v *View) Scope(f *File) []*File {
	list := []*File{f}
	seen := map[string]bool{f.Path: true}
	for i := 0; i < len(list) && len(list) < mostInScope; i++ {
		for _, d := range list[i].Tree().Decls {
			u, ok := d.(*syntax.Use)
			if !ok || u.Path == nil {
				continue
			}
			p := usePath(list[i].Path, u.Path.Text)
			if seen[p] {
				continue
			}
			seen[p] = true
			if lib, err := v.library(path.Dir(f.Path), p); err == nil {
				list = append(list, lib)
			}
		}
	}
	return list
}

// Users lists the files whose scope holds a file: itself, and whatever uses it.
func (v *View) Users(f *File) []*File {
	list := []*File{f}
	if f.IsHarness() {
		return list // nobody uses a harness
	}
	for _, other := range v.Known() {
		if other.Path == f.Path {
			continue
		}
		for _, in := range v.Scope(other) {
			if in.Path == f.Path {
				list = append(list, other)
				break
			}
		}
	}
	return list
}
