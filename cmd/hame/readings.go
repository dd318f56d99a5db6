package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"hame/check"
	"hame/check/readings"
	"hame/check/report"
	"hame/check/trial"
)

// readingsVerb is hame readings.
type readingsVerb struct {
	Form   string `arg:"" help:"The filled-in form, a CSV file, or - for standard input."`
	Path   string `arg:"" optional:"" help:"The harness file or its folder."`
	Format string `enum:"text,json" default:"text" help:"text or json."`
}

// Run holds a filled-in test sheet to the harness that it was printed from.
func (v *readingsVerb) Run(s *session) error {
	sheet, err := v.form(s)
	if err != nil {
		return err
	}
	if v.Path == "-" {
		return errors.New("the harness must be a file here: its plan was printed from it")
	}
	run, err := one{verb: "hame readings " + onOneLine(v.Form), path: v.Path}.harness(s)
	if err != nil {
		return err
	}
	r := readings.Judge(trial.Of(run.Facts), sheet)
	if err := v.write(s, run, r); err != nil {
		return fmt.Errorf("the report cannot be written: %w", err)
	}
	if !r.Proved() {
		return status(statusFindings)
	}
	return nil
}

func (v *readingsVerb) write(s *session, run *check.Run, r *readings.Report) error {
	if v.Format == "json" {
		return readings.WriteJSON(s.out, check.Version, run.Harness.Name, r)
	}
	return readings.WriteText(s.out, run.Harness.Name, r)
}

// form reads the form, and a byte more than is allowed of one that is too large.
func (v *readingsVerb) form(s *session) (*readings.Sheet, error) {
	from := s.in
	if v.Form != "-" {
		info, err := os.Stat(v.Form)
		switch {
		case err != nil:
			return nil, unreadable(v.Form, err)
		case info.IsDir():
			return nil, fmt.Errorf("`%s` is a folder; name the filled-in form", report.Plain(v.Form))
		case !info.Mode().IsRegular():
			return nil, fmt.Errorf("`%s` is no plain file and is not read; what a pipe gives is read as standard input: -", report.Plain(v.Form))
		}
		f, err := os.Open(v.Form)
		if err != nil {
			return nil, unreadable(v.Form, err)
		}
		defer f.Close()
		from = f
	}
	text, err := io.ReadAll(io.LimitReader(from, readings.MaxBytes+1))
	if err != nil {
		return nil, unreadable(v.Form, err)
	}
	sheet, err := readings.Read(text)
	if err != nil {
		return nil, fmt.Errorf("`%s`: %w", report.Plain(onOneLine(v.Form)), err)
	}
	return sheet, nil
}
