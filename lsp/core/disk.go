package core

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"time"

	"hame/lang/parts"
	"hame/lang/syntax"
)

// disk reads files and keeps them until they change.
type disk struct {
	mu   sync.Mutex
	kept map[string]kept
}

type kept struct {
	file  *File
	size  int64
	mtime time.Time
}

// mostKept is how many files are kept; beyond it all are read anew.
const mostKept = 4096

// read reads a plain file. What is larger than a harness may be is cut a byte
// behind that, and the parser says so.
func (d *disk) read(p string) (*File, error) {
	name := filepath.FromSlash(p)
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR), errors.Is(err, syscall.ENAMETOOLONG):
		return nil, fs.ErrNotExist
	case err != nil:
		return nil, fs.ErrPermission
	case !info.Mode().IsRegular():
		return nil, fs.ErrPermission // a pipe would hold everything up
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if k, ok := d.kept[p]; ok && k.size == info.Size() && k.mtime.Equal(info.ModTime()) {
		return k.file, nil
	}
	return d.fresh(p, name, info)
}

func (d *disk) fresh(p, name string, info fs.FileInfo) (*File, error) {
	in, err := os.Open(name)
	if err != nil {
		return nil, fs.ErrPermission
	}
	defer in.Close()
	content, err := io.ReadAll(io.LimitReader(in, syntax.MaxBytes+1))
	if err != nil {
		return nil, fs.ErrPermission
	}
	if len(d.kept) >= mostKept {
		clear(d.kept)
	}
	f := NewFile(p, string(content), 0)
	d.kept[p] = kept{f, info.Size(), info.ModTime()}
	return f, nil
}

// inside reports whether a path, its links followed, lies in a folder.
func inside(dir, p string) bool {
	real, err := filepath.EvalSymlinks(filepath.FromSlash(p))
	if err != nil {
		return true // it is not there, which reading it will say
	}
	root, err := filepath.EvalSymlinks(filepath.FromSlash(dir))
	if err != nil {
		return false
	}
	rel, err := filepath.Rel(root, real)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// standardFile is a library that ships in the program.
func (d *disk) standardFile(p string) (*File, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if k, ok := d.kept[p]; ok {
		return k.file, nil
	}
	content, err := parts.Read(strings.TrimPrefix(p, parts.Prefix))
	if err != nil {
		return nil, err
	}
	f := NewFile(p, content, 0)
	d.kept[p] = kept{file: f}
	return f, nil
}

// Limits on what is looked through in folders that the editor has open.
const (
	mostFiles   = 2000
	mostEntries = 50000
)

// harnessFiles lists the harness files of a folder and of those in it, hidden
// ones and links left out, in order of path.
func harnessFiles(dir string) []string {
	var list []string
	entries := 0
	_ = filepath.WalkDir(filepath.FromSlash(dir), func(name string, d fs.DirEntry, err error) error {
		entries++
		switch {
		case entries > mostEntries || len(list) >= mostFiles:
			return filepath.SkipAll
		case err != nil:
			return nil // what cannot be read is not looked through
		case d.IsDir() && strings.HasPrefix(d.Name(), ".") && filepath.ToSlash(name) != dir:
			return filepath.SkipDir
		case d.Type().IsRegular() && path.Ext(d.Name()) == ".hame":
			list = append(list, filepath.ToSlash(name))
		}
		return nil
	})
	return list
}
