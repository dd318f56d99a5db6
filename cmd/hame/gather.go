package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"hame/check/report"
)

// suffix is what a harness file's name ends in.
const suffix = ".hame"

// input is one root file to check.
type input struct {
	name  string // as shown: with slashes, cleaned
	path  string // as opened; "-" for standard input
	named bool   // given by itself, not found in a folder
}

// gather lists the files that paths name: a file itself, and of a folder all
// files below it, in order. Each comes once.
func gather(paths []string, stdinName string) ([]input, error) {
	if len(paths) == 0 {
		return nil, errors.New("no file or folder to check; `hame check .` takes the files of this folder")
	}
	var list []input
	var failures []error
	for _, p := range paths {
		found, err := expand(p, stdinName)
		list = append(list, found...)
		failures = append(failures, err)
	}
	return once(list), errors.Join(failures...)
}

func expand(path, stdinName string) ([]input, error) {
	if path == "-" {
		return []input{{name: shown(stdinName), path: "-", named: true}}, nil
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, unreadable(path, err)
	case info.IsDir():
		return below(path)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("`%s` is no plain file and is not read; what a pipe gives is read as standard input: -", report.Plain(path))
	}
	return []input{{name: shown(path), path: path, named: true}}, nil
}

// below lists the harness files of a folder and of those in it. Hidden folders
// and links are left out: what is not in the folder was not asked for.
func below(dir string) ([]input, error) {
	var list []input
	dir += string(filepath.Separator) // so that a link that is named is followed
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return unreadable(path, err)
		case d.IsDir() && path != dir && strings.HasPrefix(d.Name(), "."):
			return filepath.SkipDir
		case d.Type().IsRegular() && strings.HasSuffix(d.Name(), suffix):
			list = append(list, input{name: shown(path), path: path})
		}
		return nil
	})
	if err == nil && len(list) == 0 {
		err = fmt.Errorf("no %s file in `%s` or below it; name a file or another folder", suffix, report.Plain(shown(dir)))
	}
	return list, err
}

// once drops repetitions. A file that is named and found in a folder too
// counts as named.
func once(list []input) []input {
	var out []input
	at := map[string]int{}
	for _, in := range list {
		i, seen := at[in.name]
		if seen {
			out[i].named = out[i].named || in.named
			continue
		}
		at[in.name] = len(out)
		out = append(out, in)
	}
	return out
}

// shown is a path as findings show it.
func shown(path string) string { return filepath.ToSlash(filepath.Clean(path)) }

// unreadable says in one sentence what is wrong with a path and what to do.
func unreadable(path string, err error) error {
	name := report.Plain(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file or folder `%s`%s", name, report.Plain(nearFile(path)))
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("`%s` may not be read; ask for the right to, or name another file", name)
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return fmt.Errorf("`%s` cannot be read: %w", name, err)
}
