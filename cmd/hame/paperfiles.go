package main

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hame/check/report"
)

// paper is a file to be written: its name in its folder, and what is in it.
type paper struct {
	name string
	data []byte
}

// writeFile writes one file, whose folder must be there.
func writeFile(path string, data []byte) error {
	return writeInto(filepath.Dir(path), []paper{{filepath.Base(path), data}})
}

// writeFolder writes files into a folder and makes it where it is not there.
func writeFolder(dir string, files []paper) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return unwritable(dir, err)
	}
	return writeInto(dir, files)
}

// writeInto writes files into a folder and nowhere else, over links neither. All
// are written beside what they replace before the first takes its place, so that
// a full disk leaves everything as it was.
func writeInto(dir string, files []paper) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return unwritable(dir, err)
	}
	defer root.Close()
	if err := eachFile(dir, files, func(f paper) error { return mayReplace(root, f.name) }); err != nil {
		return err
	}
	beside := map[string]string{}
	defer func() {
		for _, name := range beside {
			_ = root.Remove(name) // gone already where all went well
		}
	}()
	err = eachFile(dir, files, func(f paper) error {
		beside[f.name] = "." + f.name + "-" + rand.Text() + ".tmp"
		return create(root, beside[f.name], f.data)
	})
	if err != nil {
		return err
	}
	defer syncFolder(dir)
	return eachFile(dir, files, func(f paper) error { return root.Rename(beside[f.name], f.name) })
}

// eachFile does something with each file, up to the first that fails.
func eachFile(dir string, files []paper, do func(paper) error) error {
	for _, f := range files {
		if err := do(f); err != nil {
			return unwritable(filepath.Join(dir, f.name), err)
		}
	}
	return nil
}

var errNoPlain = errors.New("it is no plain file")

// mayReplace lets plain files be replaced, and those that are not there.
func mayReplace(root *os.Root, name string) error {
	info, err := root.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return errNoPlain
	}
	f, err := root.OpenFile(name, os.O_WRONLY, 0) // its own mode counts, not its folder's alone
	if err != nil {
		return err
	}
	return f.Close()
}

// create writes a new file down to the disk.
func create(root *os.Root, name string, data []byte) error {
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// unwritable says in one sentence what stands against writing.
func unwritable(path string, err error) error {
	name := report.Plain(shown(path))
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("`%s` may not be written; ask for the right to, or name another", name)
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("`%s` cannot be written: there is no such folder", name)
	case errors.Is(err, errNoPlain):
		return fmt.Errorf("`%s` is no plain file and is not overwritten", name)
	case errors.As(err, &p):
		err = p.Err
	}
	return fmt.Errorf("`%s` cannot be written: %w", name, err)
}
