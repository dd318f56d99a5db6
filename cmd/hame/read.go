package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"syscall"

	"hame/lang/kinds"
	"hame/lang/syntax"
)

// read is the input's text. Of one that is too large a byte more than is
// allowed is read, and the parser says so.
func (in input) read(stdin io.Reader) (string, error) {
	if in.path == "-" {
		text, err := readCapped(stdin)
		if err != nil {
			return "", unreadable("standard input", err)
		}
		return text, nil
	}
	f, err := os.Open(in.path)
	if err != nil {
		return "", unreadable(in.path, err)
	}
	defer f.Close()
	text, err := readCapped(f)
	if err != nil {
		return "", unreadable(in.path, err)
	}
	return text, nil
}

func readCapped(r io.Reader) (string, error) {
	text, err := io.ReadAll(io.LimitReader(r, syntax.MaxBytes+1))
	return string(text), err
}

// library reads a library by the name that findings show. It never leaves the
// folder of the root file, over links neither: fs.ErrPermission says so,
// fs.ErrNotExist that there is nothing to read, and fs.ErrInvalid that what is
// there is no plain file.
func (in input) library(name string) (string, error) {
	dir := path.Dir(in.name)
	root, err := os.OpenRoot(filepath.FromSlash(dir))
	if err != nil {
		return "", fs.ErrNotExist // standard input may go by any name
	}
	defer root.Close()
	inside, err := filepath.Rel(filepath.FromSlash(dir), filepath.FromSlash(name))
	if err != nil {
		return "", fs.ErrPermission
	}
	text, err := readInside(root, inside)
	switch {
	case err == nil:
		return text, nil
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR), errors.Is(err, syscall.ENAMETOOLONG):
		return "", fs.ErrNotExist
	case errors.Is(err, fs.ErrInvalid):
		return "", fs.ErrInvalid
	}
	return "", fs.ErrPermission
}

// readInside reads plain files only: a pipe would hold the check up for ever.
func readInside(root *os.Root, name string) (string, error) {
	info, err := root.Stat(name)
	switch {
	case err != nil:
		return "", err
	case !info.Mode().IsRegular():
		return "", fs.ErrInvalid
	}
	f, err := root.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	return readCapped(f)
}

// nearFile asks whether a file beside the missing one was meant.
func nearFile(missing string) string {
	entries, err := os.ReadDir(filepath.Dir(missing))
	if err != nil {
		return ""
	}
	missing = filepath.Clean(missing)
	var names []string
	for _, e := range entries {
		name := filepath.Join(filepath.Dir(missing), e.Name())
		if name != missing && (e.IsDir() || strings.HasSuffix(name, suffix)) {
			names = append(names, name)
		}
	}
	return kinds.DidYouMean(missing, names)
}
