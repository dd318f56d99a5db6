package main

import (
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/mattn/go-isatty"

	"hame/check"
	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/source"
)

// checkVerb is hame check.
type checkVerb struct {
	Paths     []string `arg:"" optional:"" name:"path" help:"Files, folders, or - for standard input."`
	StdinName string   `name:"stdin-name" default:"stdin.hame" placeholder:"PATH" help:"The name that standard input goes by; libraries are looked for beside it."`
	Format    string   `enum:"human,line,json,sarif,junit" default:"human" help:"human, line, json, sarif or junit."`
	FailOn    string   `enum:"error,warning,advice,never" default:"error" help:"The least severity that makes the exit status 1."`
	AllowOpen bool     `help:"Let safety rules that could not be judged pass."`
	Missing   bool     `help:"Print what is still to be measured or looked up, by place, in the report's stead."`
	Color     string   `enum:"auto,always,never" default:"auto" aliases:"colour" help:"When to colour."`
	Timing    bool     `help:"Tell on standard error how long it took."`
	On        string   `placeholder:"DATE" help:"The day that allowances are judged by, such as 2027-05-31."`
}

// Run checks what the paths name and writes the report.
func (v *checkVerb) Run(s *session) error {
	start := time.Now()
	today, err := dayOf("--on", v.On, start)
	if err != nil {
		return err
	}
	inputs, err := gather(v.Paths, v.StdinName)
	if err != nil {
		return err
	}
	runs, err := s.checkAll(inputs, today)
	if err != nil {
		return err
	}
	gate := v.gate()
	o := report.Options{Version: check.Version, Colour: s.colours(v.Color), Gate: gate}
	write := report.Writers[v.Format]
	if v.Missing {
		write = report.Missing
	}
	if err := write(s.out, runs, o); err != nil {
		return fmt.Errorf("the report cannot be written: %w", err)
	}
	if v.Timing {
		_, _ = fmt.Fprintf(s.err, "hame: checked %d of %d files in %s\n", len(runs), len(inputs), time.Since(start).Round(time.Millisecond))
	}
	return exitOf(runs, gate)
}

func exitOf(runs []report.Run, g report.Gate) error {
	for _, r := range runs {
		if report.Status(r.Findings, g) != 0 {
			return status(statusFindings)
		}
	}
	return nil
}

func (v *checkVerb) gate() report.Gate {
	severity, known := finding.ParseSeverity(v.FailOn)
	if !known {
		severity = report.Never
	}
	return report.Gate{FailOn: severity, AllowOpen: v.AllowOpen, Safety: report.Safety}
}

// checkAll checks every input and leaves those out that are libraries of
// another one and were not named.
func (s *session) checkAll(inputs []input, today string) ([]report.Run, error) {
	check.OneOff()
	var all []report.Run
	var failures []error
	for _, in := range inputs {
		text, err := in.read(s.in)
		if err != nil {
			failures = append(failures, err)
			continue
		}
		run := check.File(source.New(in.name, text), check.Options{Read: in.library, Today: today})
		all = append(all, report.Run{Files: run.Files, Harness: run.Harness, Figures: run.Figures, Findings: run.Findings})
	}
	if len(failures) > 0 {
		return nil, errors.Join(failures...)
	}
	return withoutUsed(inputs, all), nil
}

func withoutUsed(inputs []input, all []report.Run) []report.Run {
	used := map[string]bool{}
	for _, r := range all {
		if r.Harness == nil {
			continue
		}
		for _, f := range r.Files[1:] {
			used[f.Name] = true
		}
	}
	var kept []report.Run
	for i, r := range all {
		if r.Harness != nil || inputs[i].named || !used[inputs[i].name] {
			kept = append(kept, r)
		}
	}
	return kept
}

// colours decides on colour: never under NO_COLOR (set and not empty), then
// what was asked for, then whether there is a terminal that knows colours.
func (s *session) colours(when string) bool {
	switch {
	case when == "never", s.env("NO_COLOR") != "":
		return false
	case when == "always":
		return true
	case s.env("TERM") == "dumb":
		return false
	}
	f, ok := s.out.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}
