package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/rogpeppe/go-internal/diff"

	"hame/check/report"
	format "hame/fmt"
	"hame/lang/source"
	"hame/lang/syntax"
)

// fmtVerb is hame fmt.
type fmtVerb struct {
	Paths     []string `arg:"" optional:"" name:"path" help:"Files, folders, or - for standard input."`
	Check     bool     `help:"Write nothing; list the files that differ, and exit with 1 if there are any."`
	Diff      bool     `help:"Write nothing; print what would change as a unified diff."`
	StdinName string   `name:"stdin-name" default:"stdin.hame" placeholder:"PATH" help:"The name that standard input goes by."`
}

// Run formats what the paths name. A file that cannot be formatted does not
// keep the others from it.
func (v *fmtVerb) Run(s *session) error {
	if len(v.Paths) == 0 {
		return errors.New("no file or folder to format; `hame fmt .` takes the files of this folder")
	}
	inputs, err := gather(v.Paths, v.StdinName)
	failures := []error{err}
	differ := false
	for _, in := range inputs {
		changes, err := v.one(s, in)
		differ = differ || changes
		failures = append(failures, err)
	}
	if err := errors.Join(failures...); err != nil {
		return err
	}
	if differ && v.Check {
		return status(statusFindings)
	}
	return nil
}

// one formats one file and reports whether that changes it.
func (v *fmtVerb) one(s *session, in input) (bool, error) {
	file, text, err := readToFormat(in, s.in)
	if err != nil {
		return false, err
	}
	set, err := format.Source(source.New(report.Plain(in.name), text))
	if err != nil {
		return false, err
	}
	changes := set != text
	switch {
	case v.Diff:
		_, err = io.WriteString(s.out, unified(in.name, text, set))
	case v.Check && changes:
		_, err = fmt.Fprintln(s.out, report.Plain(in.name))
	case v.Check:
	case in.path == "-":
		_, err = io.WriteString(s.out, set)
	case changes:
		err = file.replace(set)
	}
	return changes, err
}

// readToFormat reads an input whole: a text that was cut off must never be
// written back.
func readToFormat(in input, stdin io.Reader) (target, string, error) {
	var file target
	var err error
	if in.path != "-" {
		if file, err = targetOf(in.path); err != nil {
			return file, "", err
		}
	}
	text, err := in.read(stdin)
	if err == nil && len(text) > syntax.MaxBytes {
		err = fmt.Errorf("`%s` is larger than %d MiB and is not formatted", report.Plain(in.name), syntax.MaxBytes>>20)
	}
	return file, text, err
}

// unified is the change as a patch: without the line that repeats the command
// of another tool.
func unified(name, before, after string) string {
	name = report.Plain(name)
	text := string(diff.Diff(name, []byte(before), name, []byte(after)))
	_, patch, _ := strings.Cut(text, "\n")
	return patch
}
