package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hame/check/report"
)

// target is a file that is to be replaced: the file itself, links followed, and
// what it was when it was looked at.
type target struct {
	shown, path string
	was         fs.FileInfo
}

// targetOf looks at a file before it is read. Only a plain file that may be
// written to is replaced, wherever it is that a link leads.
func targetOf(path string) (target, error) {
	t := target{shown: report.Plain(shown(path))}
	var err error
	if t.path, err = filepath.EvalSymlinks(path); err != nil {
		return t, unreadable(path, err)
	}
	if t.was, err = os.Stat(t.path); err != nil {
		return t, unreadable(path, err)
	}
	if !t.was.Mode().IsRegular() {
		return t, fmt.Errorf("`%s` is no plain file and is not formatted", t.shown)
	}
	return t, nil
}

// replace gives the file a new text. The text is written whole to a file beside
// it, which then takes its place, so that an interruption leaves the one or the
// other. A file that was changed since it was looked at stays as it is.
func (t target) replace(text string) error {
	err := t.mayWrite()
	if err == nil {
		err = t.swap(text)
	}
	if err != nil {
		return t.unwritten(err)
	}
	syncFolder(filepath.Dir(t.path))
	return nil
}

func (t target) swap(text string) error {
	name, err := writeBeside(t.path, text, t.was)
	if err == nil {
		err = t.unchanged()
	}
	if err == nil {
		err = os.Rename(name, t.path)
	}
	if err != nil && name != "" {
		_ = os.Remove(name) // the file itself is as it was, whatever becomes of this one
	}
	return err
}

// mayWrite keeps to a file's own mode: to take its place, only its folder's
// would count.
func (t target) mayWrite() error {
	f, err := os.OpenFile(t.path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

var errChanged = errors.New("another program changed it meanwhile")

func (t target) unchanged() error {
	now, err := os.Stat(t.path)
	if err != nil {
		return err
	}
	if !os.SameFile(now, t.was) || now.Size() != t.was.Size() || !now.ModTime().Equal(t.was.ModTime()) {
		return errChanged
	}
	return nil
}

func (t target) unwritten(err error) error {
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("`%s` may not be written; ask for the right to, or see the change with --diff", t.shown)
	case errors.As(err, &p):
		err = p.Err
	}
	return fmt.Errorf("`%s` stays as it was: %w", t.shown, err)
}

// writeBeside writes a new file in the folder of another, down to the disk, with
// the mode of what was there, and its owner as far as the system lets.
// Its name is empty where it could not be made.
func writeBeside(path, text string, was fs.FileInfo) (string, error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*.tmp")
	if err != nil {
		return "", err
	}
	_, err = f.WriteString(text)
	keepOwner(f, was)
	if err == nil {
		err = f.Chmod(was.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	return f.Name(), errors.Join(err, f.Close())
}

// syncFolder makes a renaming last over a power cut, where the system can.
func syncFolder(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		_ = f.Close()
	}
}
